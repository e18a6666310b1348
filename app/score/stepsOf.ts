import type { PuppyFace } from '#lib/contract/evaluationView';
import { stepsFor, type Step } from './steps';
import type { Scoring } from './useScoring';

/** What this seat is asked about a puppy in this round: everything, or in a second round the questions that were flagged and no other. */
export function stepsOf({ evaluation, round, seat }: Pick<Scoring, 'evaluation' | 'round' | 'seat'>, puppy: PuppyFace): readonly Step[] {
  const steps = stepsFor(evaluation.sheet, seat.kind, puppy.sex);
  const { cells } = round;
  if (cells === null) return steps;
  return steps.filter((step) => step.kind === 'score' && cells.some((cell) => cell.puppyId === puppy.id && cell.criterion === step.criterion.key));
}
