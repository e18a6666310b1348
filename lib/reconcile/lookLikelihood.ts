import { normalCdf } from '#lib/stats/normalDistribution';
import type { JointDraws } from './jointDraws';
import type { LookPlan, PlannedLook } from './lookPlan';
import type { LookSettings } from './lookSettings';

/** What the likelihood of an answer is computed with, in scale points. */
export type LookScale = { readonly settings: LookSettings; readonly unit: number; readonly puppies: number };

const LEAST_CHANCE = 1e-300;

/** Log likelihood of all answers in draw `row`: probit on the difference of merit plus the seat's own liking. */
export function lookLogLikelihood(plan: LookPlan, scale: LookScale, read: { readonly draws: JointDraws; readonly row: number }): number {
  const { draws, row } = read;
  let sum = 0;
  for (const look of plan.looks) {
    const merits = draws.merits[look.purpose];
    const start = row * scale.puppies;
    const likings = row * plan.likings.length;
    const liked = (draws.lookLikings[likings + look.firstLiking]) - (draws.lookLikings[likings + look.secondLiking]);
    const gap = (merits[start + look.first]) - (merits[start + look.second]) + scale.settings.carryOver * liked;
    sum += Math.log(Math.max(LEAST_CHANCE, answerChance(look.choice, gap / scale.unit, scale.settings)));
  }
  return sum;
}

/** Chance of an answer when the seat's view of first minus second is `gap` (units u). The three chances sum to 1. */
export function answerChance(choice: PlannedLook['choice'], gap: number, settings: LookSettings): number {
  const { noise, tieHalfWidth } = settings;
  if (choice === 'first') return normalCdf((gap - tieHalfWidth) / noise);
  if (choice === 'second') return normalCdf((-gap - tieHalfWidth) / noise);
  const away = Math.abs(gap);
  return normalCdf((tieHalfWidth - away) / noise) - normalCdf((-tieHalfWidth - away) / noise);
}
