'use client';

import Link from 'next/link';
import { registerOf } from '#lib/evaluation/outboxState';
import { CollarChip } from '../_parts/CollarChip';
import { collarWords, counted } from '../_parts/textWords';
import { CardMove } from './CardMove';
import { answerWords } from './answerWords';
import styles from './score.module.css';
import { missingSteps, type Step, stepField, stepGroup, stepsOf, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';
import type { StepWork } from './useStepWork';

type StepListProps = {
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
    <div className="stack gap-20">
      <section aria-label="Puppies">
        <h2 className={styles.stepListTitle}>Puppies</h2>
        <PuppyList scoring={scoring} shown={shown} onPicked={onPicked} />
        {scoring.round.cells === null ? <CardMove key={shown.showing.id} scoring={scoring} shown={shown} /> : null}
      </section>
      <button type="button" className={styles.stepListCard} onClick={onCard}>
        Your card: what is open, your choice, lock
      </button>
      <section aria-label={`Questions about ${shown.puppy.name}`}>
        <h2 className={styles.stepListTitle}>{shown.puppy.name}</h2>
        <p className="small">
          {work.missing.length === 0 ? 'Everything is answered.' : `${counted(work.missing.length, 'question')} open.`}
        </p>
        {groups.map((group) => (
          <div key={group}>
            <h3 className={styles.group}>{group}</h3>
            <ul className="list topped lined">
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
      <Link href={`/import?id=${scoring.evaluation.id}`} className="row high">
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
      <button
        type="button"
        className={`whole-row wrap between ${styles.row}`}
        aria-current={here ? 'step' : undefined}
        onClick={onPick}
      >
        <span>{stepTitle(step)}</span>
        <span className={words === null ? `small ${styles.stepListOpen}` : 'right bold'}>
          {words ?? (step.kind === 'free' ? 'optional' : 'open')}
        </span>
        {place !== '' ? <span className={styles.stepListPlace}>{place}</span> : null}
      </button>
    </li>
  );
}

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly onPicked: (() => void) | undefined };

/** The round's puppies in this seat's order, with what is open about each. */
function PuppyList({ scoring, shown, onPicked }: Props) {
  const { round, answers } = scoring;
  return (
    <ul className="list topped lined">
      {round.showings.map(({ id }) => {
        const face = faceOf(scoring, id);
        if (!face) return null;
        const open = missingSteps(stepsOf(scoring, face.puppy), id, answers).length;
        const state = face.puppy.withdrawn ? 'withdrawn' : open === 0 ? 'answered' : `${open} open`;
        return (
          <li key={id}>
            <button
              type="button"
              className={`whole-row wrap between ${styles.row}`}
              aria-current={id === shown.showing.id ? 'true' : undefined}
              onClick={() => {
                shown.go(id);
                onPicked?.();
              }}
            >
              <span className={styles.stepListName}>
                <CollarChip collar={face.puppy.collar} words={false} />
                <span>
                  {face.puppy.name}{' '}
                  <span className={`small ${styles.stepListOpen}`}>{collarWords(face.puppy.collar)}</span>
                </span>
              </span>
              <span className={`small ${styles.stepListOpen}`}>
                {id === shown.table?.showing.id ? 'on the table · ' : ''}
                {state}
              </span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
