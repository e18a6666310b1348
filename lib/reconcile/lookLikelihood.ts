import { normalCdf } from '#lib/stats/normalDistribution';
import type { JointDraws } from './jointDraws';
import type { LookPlan, PlannedLook } from './lookPlan';
import type { LookSettings } from './lookSettings';

/** What the likelihood of an answer is computed with, in scale points. */
export type LookScale = { readonly settings: LookSettings; readonly unit: number; readonly puppies: number };

/** Added to what a look follows: `times` the difference in merit beyond `centre`. One a look. */
export type Lift = { readonly times: number; readonly centre: number };

const LEAST_CHANCE = 1e-300;

export type LookedRow = { readonly draws: JointDraws; readonly row: number; /** In the order of the plan's looks. */ readonly lifts: readonly Lift[] };

/**
 * Log likelihood of all answers in draw `row`: probit on the difference the seat sees. That is the seat's perceived merit, m_p + (πβ)_pj, the same
 * weighted quality as merit with the seat's liking in it, lifted where need be.
 */
export function lookLogLikelihood(plan: LookPlan, scale: LookScale, { draws, row, lifts }: LookedRow): number {
  let sum = 0;
  plan.looks.forEach((look, at) => {
    const merit = meritGap(look, scale, { draws, row });
    const { times, centre } = lifts[at] ?? noLift;
    const gap = merit + scale.settings.carryOver * likingGap(look, plan, { draws, row }) + times * (merit - centre);
    sum += Math.log(Math.max(LEAST_CHANCE, answerChance(look.choice, gap / scale.unit, scale.settings)));
  });
  return sum;
}

const noLift: Lift = { times: 0, centre: 0 };

/**
 * What keeps an answer from counting against the puppy it names (ST5): in a few panels, where criteria differ much in noise or the seat missed
 * some, an answer for a puppy would say more of the seat's liking for it, which its scores then owe less merit to, than of its merit. Given the
 * scores, what a seat sees falls with merit there; it is lifted until it no longer does, and such a look then tells nothing either way.
 */
export function lookLifts(plan: LookPlan, scale: LookScale, draws: JointDraws): Lift[] {
  return plan.looks.map((look) => {
    const merit = Float64Array.from({ length: draws.count }, (_, row) => meritGap(look, scale, { draws, row }));
    const liked = Float64Array.from({ length: draws.count }, (_, row) => likingGap(look, plan, { draws, row }));
    return liftOf(merit, liked, scale.settings.carryOver);
  });
}

/** The lift from equally likely differences in merit and in liking. */
export function liftOf(merit: Float64Array, liked: Float64Array, carryOver: number): Lift {
  const centre = merit.reduce((sum, value) => sum + value, 0) / Math.max(1, merit.length);
  let [variance, covariance] = [0, 0];
  merit.forEach((value, row) => {
    variance += (value - centre) ** 2;
    covariance += (value - centre) * (value + carryOver * (liked[row] as number));
  });
  return { times: variance > 0 ? Math.max(0, -covariance / variance) : 0, centre };
}

function meritGap(look: PlannedLook, { puppies }: LookScale, { draws, row }: Pick<LookedRow, 'draws' | 'row'>): number {
  const merits = draws.merits[look.purpose] as Float64Array;
  return (merits[row * puppies + look.first] as number) - (merits[row * puppies + look.second] as number);
}

function likingGap(look: PlannedLook, { likings }: LookPlan, { draws, row }: Pick<LookedRow, 'draws' | 'row'>): number {
  const start = row * likings.length;
  return (draws.lookLikings[start + look.firstLiking] as number) - (draws.lookLikings[start + look.secondLiking] as number);
}

/** Chance of an answer when the seat's view of first minus second is `gap` (units u). The three chances sum to 1. */
export function answerChance(choice: PlannedLook['choice'], gap: number, settings: LookSettings): number {
  const { noise, tieHalfWidth } = settings;
  if (choice === 'first') return normalCdf((gap - tieHalfWidth) / noise);
  if (choice === 'second') return normalCdf((-gap - tieHalfWidth) / noise);
  const away = Math.abs(gap);
  return normalCdf((tieHalfWidth - away) / noise) - normalCdf((-tieHalfWidth - away) / noise);
}
