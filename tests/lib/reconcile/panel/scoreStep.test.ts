import { describe, expect, it } from 'vitest';
import type { Panel } from '#lib/reconcile/panel/panel';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { roundingVariance, scoreStep } from '#lib/reconcile/panel/scoreStep';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { questionOf } from '../examplePanel';

const puppies = ['a', 'b', 'c', 'd', 'e'];
const evaluators = ['x', 'y', 'z'];
const criteria = ['one', 'two', 'three', 'four', 'five', 'six'].map((key) => ({ key, twoSided: false }));

/** Every seat gives the very same card for a puppy. */
function identicalCards(card: (puppy: number, criterion: number) => number): Panel {
  const scores = puppies.flatMap((puppy, p) =>
    criteria.flatMap(({ key }, c) =>
      evaluators.map((evaluator) => ({ puppy, evaluator, criterion: key, value: card(p, c) })),
    ),
  );
  return { scale: { low: 1, high: 7 }, puppies, evaluators, criteria, scores };
}

describe('the step of the scale', () => {
  it('ST1: whole scores, halves, quarters, tenths, hundredths, none, and no scores', () => {
    expect([[3, 4], [3, 4.5], [1.25], [0.1, 0.3], [2.05], [0.07], [Math.PI], []].map(scoreStep)).toEqual([
      1, 0.5, 0.25, 0.1, 0.05, 0.01, 0, 1,
    ]);
  });

  it('ST3: the error of rounding evenly spread values to whole numbers has variance 1/12', () => {
    const errors = Array.from({ length: 10_000 }, (_, at) => at / 997).map((value) => value - Math.round(value));
    expect(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length).toBeCloseTo(roundingVariance(1), 3);
  });
});

describe('seats that agree to the point', () => {
  const random = createSeededRandom(3);
  const cards = puppies.map(() => criteria.map(() => 2 + random.below(4)));
  const whole = identicalCards((p, c) => cards[p]?.[c] ?? 4);

  it("ST4: merit is no surer than the scale's own step allows: rounding alone leaves an SD of step / √(12 · scores of a puppy)", () => {
    const scores = criteria.length * evaluators.length;
    // The merit is against the litter's mean, which shares a fifth of each puppy's error.
    const least = Math.sqrt((1 / 12 / scores) * (1 - 1 / puppies.length));
    for (const { sd, low, high } of reconcile(questionOf(whole)).purposes[0]?.merit ?? []) {
      expect(sd).toBeGreaterThan(0.8 * least);
      expect(high - low).toBeGreaterThan(0.15);
    }
  });

  it('ST4: a finer step leaves less doubt', () => {
    const finer = identicalCards((p, c) => (cards[p]?.[c] ?? 4) + ((p * 7 + c * 3) % 9) / 10);
    const widest = (panel: Panel) =>
      Math.max(...(reconcile(questionOf(panel)).purposes[0]?.merit ?? []).map(({ sd }) => sd));
    expect(widest(finer)).toBeLessThan(0.6 * widest(whole));
  });
});
