'use client';

import { useMutation } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import type { PuppyFace, Showing } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Refusal } from '../_parts/Refusal';
import { missingSteps, type Step, stepField, stepsOf, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';
import type { StepWork } from './useStepWork';
import { useWorkOrder } from './useWorkOrder';

export type NextMove = {
  readonly words: string;
  readonly press: () => void /** Goes on to another puppy or the card, not to the next question. */;
  readonly leaves: boolean;
  readonly busy: boolean;
  readonly failure: ReactNode /** Null at the very first question. */;
  readonly back: (() => void) | null;
};

type Place = { readonly scoring: Scoring; readonly shown: Shown; readonly work: StepWork; readonly onCard: () => void };
type Face = { readonly showing: Showing; readonly puppy: PuppyFace };

/** What "next" means here: the next question, then the next puppy (who leads brings it to the table), then the card. */
export function useNextMove({ scoring, shown, work, onCard }: Place): NextMove {
  const trpc = useTRPC();
  const move = useMutation(trpc.evaluation.moveTable.mutationOptions());
  const failure = move.error ? <Refusal error={move.error} words={null} /> : null;
  const [order] = useWorkOrder();
  const across =
    order === 'across' && scoring.round.medium === 'photographs' ? acrossMove({ scoring, shown, work, onCard }) : null;
  if (across) return { ...across, leaves: false, busy: false, failure: null };
  const back = work.index === 0 ? null : () => work.go(work.index - 1);
  const rest = { busy: move.isPending, failure, back, leaves: work.step === null };
  if (work.step) {
    const following = work.steps[work.index + 1];
    const words = following ? `Next: ${lowered(stepTitle(following))}` : `Done with ${shown.puppy.name}`;
    return { ...rest, words, press: () => work.go(work.index + 1) };
  }
  const { evaluation, round } = scoring;
  const leads = evaluation.viewer.leads && round.medium === 'table';
  const face = nextFace(scoring, shown);
  if (leads && face && shown.table?.showing.id === shown.showing.id) {
    // Her own move: she goes with it whatever is open, and without a link alone.
    const press = () =>
      move.mutate({ id: evaluation.id, showingId: face.showing.id }, { onSettled: () => shown.go(face.showing.id) });
    return { ...rest, words: `Next to the table: ${face.puppy.name}`, press };
  }
  if (round.medium === 'table' && shown.table && shown.table.showing.id !== shown.showing.id) {
    const table = shown.table.showing.id;
    return { ...rest, words: `To the table: ${shown.table.puppy.name}`, press: () => shown.go(table) };
  }
  if (face && round.medium === 'table')
    return { ...rest, busy: true, words: 'Waiting for the table', press: () => undefined };
  if (face) return { ...rest, words: `Next puppy: ${face.puppy.name}`, press: () => shown.go(face.showing.id) };
  return { ...rest, words: 'Your card', press: onCard };
}

/** One question across the litter: the same question about the next puppy, then the next question about the first. Null past the last question. */
function acrossMove({ scoring, shown, work, onCard }: Place): Pick<NextMove, 'words' | 'press' | 'back'> | null {
  const faces = scoring.round.showings
    .flatMap(({ id }) => faceOf(scoring, id) ?? [])
    .filter(({ puppy }) => !puppy.withdrawn);
  const places = acrossLitter(faces.map((face) => ({ ...face, steps: stepsOf(scoring, face.puppy) })));
  const here = places.findIndex(({ face, index }) => face.showing.id === shown.showing.id && index === work.index);
  if (here < 0) return null;
  const goTo = ({ face, index }: AcrossPlace) => {
    work.put(face.showing.id, index);
    shown.go(face.showing.id);
  };
  const [before, after] = [places[here - 1], places[here + 1]];
  const sameQuestion = after && stepTitle(after.step) === stepTitle(places[here]?.step ?? after.step);
  const words = !after
    ? 'Your card'
    : sameQuestion
      ? `Next: ${after.face.puppy.name}`
      : `Next: ${lowered(stepTitle(after.step))}, ${after.face.puppy.name}`;
  return { words, press: after ? () => goTo(after) : onCard, back: before ? () => goTo(before) : null };
}

/** The next puppy in this order that is not withdrawn; past the last one, the first with a question open. */
function nextFace(scoring: Scoring, shown: Shown): Face | null {
  const faces = scoring.round.showings
    .flatMap(({ id }) => faceOf(scoring, id) ?? [])
    .filter(({ puppy }) => !puppy.withdrawn);
  const here = scoring.round.showings.findIndex((one) => one.id === shown.showing.id);
  const after = faces.find(({ showing }) => scoring.round.showings.findIndex((one) => one.id === showing.id) > here);
  if (after || scoring.round.medium === 'table') return after ?? null;
  const open = (face: Face) => missingSteps(stepsOf(scoring, face.puppy), face.showing.id, scoring.answers).length > 0;
  return faces.find((face) => face.showing.id !== shown.showing.id && open(face)) ?? null;
}

function lowered(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

type AcrossFace = { readonly showing: Showing; readonly puppy: PuppyFace; readonly steps: readonly Step[] };
/** One question about one puppy: its place among that puppy's questions. */
type AcrossPlace = { readonly face: AcrossFace; readonly step: Step; readonly index: number };

/** Every question of a round, one question across all puppies before the next; a puppy that is not asked it is left out there. */
export function acrossLitter(faces: readonly AcrossFace[]): readonly AcrossPlace[] {
  const longest = faces
    .toSorted((one, other) => other.steps.length - one.steps.length)
    .flatMap(({ steps }) => steps.map(stepField));
  return [...new Set(longest)].flatMap((field) =>
    faces.flatMap((face) => {
      const index = face.steps.findIndex((step) => stepField(step) === field);
      const step = face.steps[index];
      return step ? [{ face, step, index }] : [];
    }),
  );
}
