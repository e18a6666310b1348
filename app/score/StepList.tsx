'use client';

import Link from 'next/link';
import { registerOf } from '#lib/evaluation/outboxState';
import { counted } from '../_parts/counted';
import { answerWords } from './answerWords';
import { CardMove } from './CardMove';
import { PuppyList } from './PuppyList';
import styles from './StepList.module.css';
import { stepField, stepGroup, stepTitle, type Step } from './steps';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';

export type StepListProps = {
  readonly scoring: Scoring;
  readonly shown: Shown;
  readonly work: StepWork;
  readonly onCard: () => void;
  /** After something was picked. */
  readonly onPicked?: () => void;
};

/** Every question about this puppy with what was said, every puppy of the round, and the ways on. */
export function StepList({ scoring, shown, work, onCard, onPicked }: StepListProps) {
  const groups = [...new Set(work.steps.map(stepGroup))];
  return (
    <div className={styles.list}>
      <section aria-label="Puppies">
        <h2 className={styles.title}>Puppies</h2>
        <PuppyList scoring={scoring} shown={shown} onPicked={onPicked} />
        {scoring.round.cells === null && <CardMove key={shown.showing.id} scoring={scoring} shown={shown} />}
      </section>
      <button type="button" className={styles.card} onClick={onCard}>
        Your card: what is open, your choice, lock
      </button>
      <section aria-label={`Questions about ${shown.puppy.name}`}>
        <h2 className={styles.title}>{shown.puppy.name}</h2>
        <p className="small">{work.missing.length === 0 ? 'Everything is answered.' : `${counted(work.missing.length, 'question')} open.`}</p>
        {groups.map((group) => (
          <div key={group}>
            <h3 className={styles.group}>{group}</h3>
            <ul className={styles.rows}>
              {work.steps.map((step, index) =>
                stepGroup(step) === group ? (
                  <StepLine
                    key={stepField(step)}
                    scoring={scoring}
                    line={{ step, subject: shown.showing.id, here: index === work.index }}
                    onPick={() => {
                      work.go(index);
                      onPicked?.();
                    }}
                  />
                ) : null,
              )}
            </ul>
          </div>
        ))}
      </section>
      <Link href={`/import?id=${scoring.evaluation.id}`} className={styles.import}>
        Bring in scores typed elsewhere
      </Link>
    </div>
  );
}

type LineProps = {
  readonly scoring: Scoring;
  readonly line: { readonly step: Step; readonly subject: string; readonly here: boolean };
  readonly onPick: () => void;
};

const places = { server: '', phone: 'only on this device', late: 'late', refused: 'refused' } as const;

function StepLine({ scoring, line, onPick }: LineProps) {
  const { step, subject, here } = line;
  const answer = scoring.answers.get(registerOf(subject, stepField(step)));
  const words = answerWords(step, answer?.body ?? null);
  const place = answer ? places[answer.place] : '';
  return (
    <li>
      <button type="button" className={styles.row} aria-current={here ? 'step' : undefined} onClick={onPick}>
        <span>{stepTitle(step)}</span>
        <span className={words === null ? styles.open : styles.said}>{words ?? (step.kind === 'free' ? 'optional' : 'open')}</span>
        {place !== '' && <span className={styles.place}>{place}</span>}
      </button>
    </li>
  );
}
