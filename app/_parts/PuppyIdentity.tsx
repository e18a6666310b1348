import type { ReactNode } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { CollarChip } from './CollarChip';
import { collarWords } from './textWords';
import styles from './PuppyIdentity.module.css';

type Props = {
  readonly puppy: PuppyFace;
  readonly ageDays?: number;
  /** Beside the name, at the end of the line: the place in the order, say. */
  readonly aside?: ReactNode;
  /** The name's heading level. */
  readonly level?: 'h1' | 'h2' | 'h3';
};

/** Who this is, large: name, collar in words and colour, sex, second mark, age. A mix-up of puppies is the costliest slip of the day. */
export function PuppyIdentity({ puppy, ageDays, aside, level: Name = 'h1' }: Props) {
  const facts = [
    collarWords(puppy.collar),
    puppy.sex,
    puppy.secondMark,
    ageDays === undefined ? '' : `${ageDays} days`,
  ];
  return (
    <div className="row gap-12">
      <CollarChip collar={puppy.collar} size={44} words={false} />
      <div className="grows">
        <Name className={styles.name}>{puppy.name}</Name>
        <p className={`small ${styles.facts}`}>{facts.filter((fact) => fact !== '').join(' · ')}</p>
      </div>
      {aside === undefined ? null : <div className={`small ${styles.aside}`}>{aside}</div>}
    </div>
  );
}
