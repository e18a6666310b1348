'use client';

import { useState } from 'react';
import { firstOpen, missingSteps, type Step, stepsOf } from './steps';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';

export type StepWork = {
  readonly steps: readonly Step[];
  /** Equal to the number of steps once past the last. */
  readonly index: number;
  readonly step: Step | null;
  readonly missing: readonly Step[];
  /** True after the person has moved by hand: then the keys may take the keyboard. */
  readonly moved: boolean;
  readonly go: (index: number) => void;
  /** Says where a puppy opens that is not on the screen yet. */
  readonly put: (subject: string, index: number) => void;
};

/** Where the person is within a puppy's questions; each puppy keeps its own place, at first the first open question. */
export function useStepWork(scoring: Scoring, shown: Shown): StepWork {
  const [moved, setMoved] = useState(false);
  const { answers } = scoring;
  const steps = stepsOf(scoring, shown.puppy);
  const subject = shown.showing.id;
  const index = shown.places.get(subject) ?? firstOpen(steps, subject, answers);
  const put = (other: string, to: number) => {
    setMoved(true);
    shown.setPlace(other, to);
  };
  return {
    steps,
    index,
    step: steps[index] ?? null,
    missing: missingSteps(steps, subject, answers),
    moved,
    put,
    go: (to) => put(subject, Math.max(0, Math.min(steps.length, to))),
  };
}
