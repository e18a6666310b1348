import type { EvaluationView, PuppyFace, SlotView } from '#lib/contract/evaluationView';
import { readings } from '#lib/reconcile/sentences/readings';
import { readingSentence } from '#lib/reconcile/sentences/robustnessSentences';
import type { Faces } from '../_evaluation/facesOf';
import type { Revealed } from '../_evaluation/useRevealed';
import { CollarChip } from '../_parts/CollarChip';
import { collarWords } from '../_parts/textWords';
import { type Beside, BesideLines, besideOf } from '../_result/BesidePuppy';
import styles from './decide.module.css';

export type DecideProps = { readonly revealed: Revealed; readonly faces: Faces };
/** What sentences about the picks are made from. */
export type DecideGround = DecideProps & { readonly evaluation: EvaluationView };

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
      <fieldset>
        <legend className={styles.legend}>Puppies that fit, with the panel’s readings</legend>
        {fitting.some(({ probability }) => probability !== null) ? (
          <p className="small text">{readingSentence}</p>
        ) : null}
        {fitting.map((line) => (
          <label key={line.puppy.id} className={`ticked row gap-12 ${styles.line}`}>
            {readOnly ? null : (
              <input
                type="radio"
                name="puppy"
                checked={chosen === line.puppy.id}
                onChange={() => onChoose(line.puppy.id)}
              />
            )}
            <CollarChip collar={line.puppy.collar} size={20} words={false} />
            <span className={styles.who}>
              <b>{line.puppy.name}</b>{' '}
              <span className="small">{`${collarWords(line.puppy.collar)}, ${line.puppy.sex}`}</span>
            </span>
            <span className={`figures ${styles.chance}`}>
              {line.probability === null ? '' : `${readings(line.probability)} of 100`}
            </span>
            <span className={styles.besideLine}>
              <BesideLines beside={line.beside} />
            </span>
          </label>
        ))}
      </fieldset>
      {barred.length > 0 ? (
        <ul className={`stack small gap-4 ${styles.barred}`} aria-label="Puppies that do not fit">
          {barred.map((line) => (
            <li key={line.puppy.id}>
              <b>{line.puppy.name}</b>: {line.barred}
              {line.beside.answered === '' ? null : `. Veterinary answer: ${line.beside.answered}`}
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

export type CandidateLine = {
  readonly puppy: PuppyFace;
  /** Chance of being the best for this place; null where the panel gives none. */
  readonly probability: number | null;
  /** Why it cannot be picked, in words; null when it can. */
  readonly barred: string | null;
  readonly beside: Beside;
};

/** Every puppy for one place: those that fit first, most probable first; the others with the reason why not. */
export function candidateLines(slot: SlotView, { evaluation, revealed, faces }: DecideGround): CandidateLine[] {
  const chances = new Map(
    revealed.board.slots
      .find((one) => one.slotId === slot.id)
      ?.chances.map(({ puppy, probability }) => [puppy, probability]),
  );
  return evaluation.puppies
    .map((puppy): CandidateLine => {
      const beside = besideOf(puppy.id, { revealed, faces });
      const taken = revealed.decision.decisions.find((one) => one.puppyId === puppy.id);
      return {
        puppy,
        probability: chances.get(puppy.id) ?? null,
        beside,
        barred: barredWords(slot, puppy, { holds: beside.holds, takenAt: taken ? faces.place(taken.slotId) : null }),
      };
    })
    .sort(
      (a, b) => Number(a.barred !== null) - Number(b.barred !== null) || (b.probability ?? 0) - (a.probability ?? 0),
    );
}

function barredWords(
  slot: SlotView,
  puppy: PuppyFace,
  { holds, takenAt }: { readonly holds: string; readonly takenAt: number | null },
): string | null {
  if (puppy.withdrawn) return 'withdrawn';
  if (takenAt !== null) return `picked for place ${takenAt}`;
  if (slot.sex !== 'any' && slot.sex !== puppy.sex) return `a ${puppy.sex}; this place asks for a ${slot.sex}`;
  return slot.purpose === 'keep' && holds !== '' ? `held by ${holds}` : null;
}
