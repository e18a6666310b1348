'use client';

import { PuppyPictures } from '../photos/PuppyPictures';
import styles from './StepPictures.module.css';
import type { Step } from './steps';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly step: Step };

/** Pictures beside the question: open where photographs are what is scored, folded away where the puppy itself stands there. */
export function StepPictures({ scoring, shown, step }: Props) {
  const view = 'criterion' in step ? step.criterion.view : null;
  const pictures = <PuppyPictures key={shown.showing.puppyId} evaluation={scoring.evaluation} puppyId={shown.showing.puppyId} name={shown.puppy.name} view={view} />;
  if (scoring.round.medium === 'photographs') return <div className={styles.open}>{pictures}</div>;
  return (
    <details className={styles.folded}>
      <summary>Pictures of {shown.puppy.name}</summary>
      {pictures}
    </details>
  );
}
