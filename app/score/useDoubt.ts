'use client';

import { useState } from 'react';
import { answerWords } from './answerWords';
import { type Step, stepField, stepsOf } from './steps';
import type { PressedEdit } from './StepKeys';
import type { Scoring } from './useScoring';
import type { Face, Shown } from './useShowing';

export type Doubt = {
  /** A press that came just as the table brought another puppy; null when there is none. Nothing is filed before it is answered. */
  readonly open: {
    readonly words: string;
    readonly brought: Face /** Those it may be about. */;
    readonly faces: readonly Face[];
  } | null;
  /** Takes an edit that has to be asked about, and says whether it has. */
  readonly ask: (edit: PressedEdit) => boolean;
  /** Files it under that puppy, or under none. */
  readonly settle: (face: Face | null) => void;
};

type Place = { readonly scoring: Scoring; readonly shown: Shown; readonly step: Step | null };

/** Whose was it? The puppy before is offered only where the same question was on its screen: else the key meant something else. */
export function useDoubt({ scoring, shown, step }: Place): Doubt {
  const [open, setOpen] = useState<(NonNullable<Doubt['open']> & { readonly body: PressedEdit['body'] }) | null>(null);
  return {
    open,
    ask: ({ body, cleared, downAt }) => {
      if (!step || !shown.isUnsure(downAt)) return false;
      const before = shown.broughtFrom;
      const asked = before && stepsOf(scoring, before.puppy)[shown.places.get(before.showing.id) ?? 0];
      const same =
        before !== null && !cleared && asked !== undefined && asked !== null && stepField(asked) === stepField(step);
      const brought = { showing: shown.showing, puppy: shown.puppy };
      setOpen({
        words: answerWords(step, body) ?? 'taken back',
        body,
        brought,
        faces: same ? [before, brought] : [brought],
      });
      return true;
    },
    settle: (face) => {
      if (open && face) scoring.say(face.showing.id, open.body);
      setOpen(null);
    },
  };
}
