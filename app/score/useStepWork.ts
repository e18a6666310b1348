'use client';

import { useState } from 'react';
import { isAnswered, missingSteps, type Step } from './steps';
import { stepsOf } from './stepsOf';
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
  const [places, setPlaces] = useState<ReadonlyMap<string, number>>(new Map());
  const [moved, setMoved] = useState(false);
  const { answers } = scoring;
  const steps = stepsOf(scoring, shown.puppy);
  const subject = shown.showing.id;
  const place = places.get(subject);
  const index = place ?? firstOpen(steps, (step) => isAnswered(step, subject, answers));
  const remember = (to: number) => setPlaces((before) => new Map(before).set(subject, to));
  // The place is pinned at first sight: an answer must not move the question away under the thumb.
  if (place === undefined && scoring.ready) remember(index);
  return {
    steps,
    index,
    step: steps[index] ?? null,
    missing: missingSteps(steps, subject, answers),
    moved,
    put: (other, to) => {
      setMoved(true);
      setPlaces((before) => new Map(before).set(other, to));
    },
    go: (to) => {
      setMoved(true);
      remember(Math.max(0, Math.min(steps.length, to)));
    },
  };
}

function firstOpen(steps: readonly Step[], answered: (step: Step) => boolean): number {
  if (!steps.some(answered)) return 0;
  const open = steps.findIndex((step) => step.kind !== 'free' && !answered(step));
  return open < 0 ? 0 : open;
}
