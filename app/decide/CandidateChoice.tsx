import { readings } from '#lib/reconcile/sentences/readings';
import { CollarChip } from '../_parts/CollarChip';
import { collarWords } from '../_parts/collarWords';
import styles from './CandidateChoice.module.css';
import type { CandidateLine } from './candidateLines';

type CandidateChoiceProps = {
  readonly lines: readonly CandidateLine[];
  readonly chosen: string;
  readonly onChoose: (puppyId: string) => void;
  readonly readOnly: boolean;
};

/** The puppies for one place: those that fit to choose from, with the panel's chance; the others with the reason why not. */
export function CandidateChoice({ lines, chosen, onChoose, readOnly }: CandidateChoiceProps) {
  const fitting = lines.filter(({ barred }) => barred === null);
  const barred = lines.filter((line) => line.barred !== null);
  return (
    <>
      {fitting.length === 0 ? <p>No puppy fits this place as things stand.</p> : null}
      <fieldset className={styles.choice}>
        <legend className={styles.legend}>Puppies that fit, with the panel’s readings</legend>
        {fitting.map((line) => (
          <label key={line.puppy.id} className={styles.line}>
            {readOnly ? null : <input type="radio" name="puppy" checked={chosen === line.puppy.id} onChange={() => onChoose(line.puppy.id)} />}
            <CollarChip collar={line.puppy.collar} size={20} words={false} />
            <span>
              <b>{line.puppy.name}</b> <span className="small">{`${collarWords(line.puppy.collar)}, ${line.puppy.sex}`}</span>
              {line.holds === '' ? null : <span className={styles.hold}>A check asks for a veterinary answer: {line.holds}</span>}
            </span>
            <span className={`figures ${styles.chance}`}>{line.probability === null ? '' : `${readings(line.probability)} of 100`}</span>
          </label>
        ))}
      </fieldset>
      {barred.length > 0 ? (
        <ul className={styles.barred} aria-label="Puppies that do not fit">
          {barred.map((line) => (
            <li key={line.puppy.id}>
              <b>{line.puppy.name}</b>: {line.barred}
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}
