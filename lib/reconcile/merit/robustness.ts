import type { ReconcileQuestion } from '../panel/panel';
import { reconcile, reconcileSettings, type ReconcileSettings } from './reconcile';
import type { Reconciliation } from './reconciliation';
import { scaledPriors } from './scaledPriors';
import { scorePosterior } from './scorePosterior';
import { settlingChances, type SettlingChances } from '../looks/settlingChances';

/** What else the numbers might have been: computed after the result, from the same question. */
export type Robustness = {
  readonly engineVersion: string;
  /** By slot: the chance of its likeliest puppy with every prior SD halved, as it is, and doubled; least and most. Slots without an eligible puppy are left out. */
  readonly priors: readonly {
    readonly slot: string;
    readonly puppy: string;
    readonly low: number;
    readonly high: number;
  }[];
  /** The order, best first, and the likeliest puppy of every slot, without one seat. Seats without scores are left out, and none is left out of two. */
  readonly without: readonly {
    readonly evaluator: string;
    readonly orders: readonly { readonly purpose: string; readonly puppies: readonly string[] }[];
    readonly slots: readonly { readonly slot: string; readonly puppy: string | null; readonly probability: number }[];
  }[];
  /** Of close calls: how often one more evaluator, or one more look, would settle them. */
  readonly settling: readonly SettlingChances[];
};

/** Half and twice every prior SD. */
const FACTORS = [0.5, 2] as const;
const LEAST_SEATS = 3;
/** Lighter than the result itself: each is computed with other priors or seats, and read to whole hundredths. */
const lighter = { points: 100, pairs: 600 };

/** @param settings those the result was computed with. */
export function robustness(question: ReconcileQuestion, settings: ReconcileSettings = reconcileSettings): Robustness {
  const { points, pairs } = settings.sampling;
  const light = {
    ...settings,
    sampling: { points: Math.min(points, lighter.points), pairs: Math.min(pairs, lighter.pairs) },
  };
  const scored = scorePosterior(question, light);
  const base = reconcile(question, light, scored);
  return {
    engineVersion: base.engineVersion,
    priors: priorInfluence(question, base, light),
    without: ordersWithout(question, light),
    settling: settlingChances(question, scored, light),
  };
}

function priorInfluence(
  question: ReconcileQuestion,
  base: Reconciliation,
  settings: ReconcileSettings,
): Robustness['priors'] {
  const others = FACTORS.map((factor) =>
    reconcile(question, { ...settings, priors: scaledPriors(settings.priors, factor) }),
  );
  return base.slots.flatMap(({ key, chances: [first] }) => {
    if (!first) return [];
    const found = others.flatMap(
      ({ slots }) => slots.find((slot) => slot.key === key)?.chances.filter(({ puppy }) => puppy === first.puppy) ?? [],
    );
    const chances = [first, ...found].map(({ probability }) => probability);
    return [{ slot: key, puppy: first.puppy, low: Math.min(...chances), high: Math.max(...chances) }];
  });
}

function ordersWithout(question: ReconcileQuestion, settings: ReconcileSettings): Robustness['without'] {
  const { panel } = question;
  const seats = panel.evaluators.filter((seat) => panel.scores.some(({ evaluator }) => evaluator === seat));
  if (seats.length < LEAST_SEATS) return [];
  return seats.map((evaluator) => {
    const scores = panel.scores.filter((score) => score.evaluator !== evaluator);
    const looks = question.looks.filter((look) => look.evaluator !== evaluator);
    const answer = reconcile({ ...question, looks, panel: { ...panel, scores } }, settings);
    return {
      evaluator,
      orders: answer.purposes.map(({ key, merit }) => ({ purpose: key, puppies: merit.map(({ puppy }) => puppy) })),
      slots: answer.slots.map(({ key, chances: [first] }) => ({
        slot: key,
        puppy: first?.puppy ?? null,
        probability: first?.probability ?? 0,
      })),
    };
  });
}
