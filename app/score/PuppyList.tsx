'use client';

import { CollarChip } from '../_parts/CollarChip';
import { collarWords } from '../_parts/collarWords';
import styles from './StepList.module.css';
import { missingSteps } from './steps';
import { stepsOf } from './stepsOf';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly onPicked: (() => void) | undefined };

/** The round's puppies in this seat's order, with what is open about each. */
export function PuppyList({ scoring, shown, onPicked }: Props) {
  const { round, answers } = scoring;
  return (
    <ul className={styles.rows}>
      {round.showings.map(({ id }) => {
        const face = faceOf(scoring, id);
        if (!face) return null;
        const open = missingSteps(stepsOf(scoring, face.puppy), id, answers).length;
        const state = face.puppy.withdrawn ? 'withdrawn' : open === 0 ? 'answered' : `${open} open`;
        return (
          <li key={id}>
            <button
              type="button"
              className={styles.row}
              aria-current={id === shown.showing.id ? 'true' : undefined}
              onClick={() => {
                shown.go(id);
                onPicked?.();
              }}
            >
              <span className={styles.name}>
                <CollarChip collar={face.puppy.collar} words={false} />
                <span>
                  {face.puppy.name} <span className={styles.open}>{collarWords(face.puppy.collar)}</span>
                </span>
              </span>
              <span className={styles.open}>
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
