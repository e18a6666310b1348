import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { crossedComponents, type CrossedScore } from '#lib/stats/crossedComponents';
import { fitMixedModel, type MixedModelFit } from '#lib/stats/fitMixedModel';
import { intercept, interactionFactor, labelledFactor, type MixedModel } from '#lib/stats/mixedModel';
import { restrictedLikelihood } from '#lib/stats/restrictedLikelihood';
import { createSeededRandom } from '#lib/stats/seededRandom';

type Shape = {
  readonly targets: number;
  readonly raters: number;
  readonly criteria: number;
  readonly missing: number;
  readonly seed: number;
};

const shapes = fc.record({
  targets: fc.integer({ min: 2, max: 7 }),
  raters: fc.integer({ min: 1, max: 4 }),
  criteria: fc.integer({ min: 1, max: 5 }),
  missing: fc.constantFrom(0, 0.15, 0.5),
  seed: fc.integer(),
});

/** Enough scores for one top; a handful of cells can tie two, and rounding then decides. */
const full = fc.record({
  targets: fc.integer({ min: 3, max: 7 }),
  raters: fc.integer({ min: 2, max: 4 }),
  criteria: fc.integer({ min: 3, max: 5 }),
  missing: fc.constantFrom(0, 0.15),
  seed: fc.integer(),
});

/** Rounded scores 1 … 7 with target, rater and interaction effects of random size, some of them none. */
function simulate({ targets, raters, criteria, missing, seed }: Shape): CrossedScore[] {
  const random = createSeededRandom(seed);
  const effects = (count: number): number[] => {
    const sd = random.uniform() < 0.3 ? 0 : random.uniform() * 1.5;
    return Array.from({ length: count }, () => sd * random.normal());
  };
  const [t, r, tr] = [effects(targets), effects(raters), effects(targets * raters)];
  const scores: CrossedScore[] = [];
  for (let i = 0; i < targets; i += 1)
    for (let j = 0; j < raters; j += 1)
      for (let k = 0; k < criteria; k += 1) {
        const value = Math.round(
          Math.min(7, Math.max(1, 4 + (t[i] ?? 0) + (r[j] ?? 0) + (tr[i * raters + j] ?? 0) + 0.8 * random.normal())),
        );
        if (random.uniform() >= missing) scores.push({ target: i, rater: j, criterion: k, value });
      }
  return scores;
}

function modelFrom(scores: readonly CrossedScore[]): MixedModel {
  const target = labelledFactor(
    'target',
    scores.map((score) => score.target),
  );
  const rater = labelledFactor(
    'rater',
    scores.map((score) => score.rater),
  );
  const criterion = labelledFactor(
    'criterion',
    scores.map((score) => score.criterion),
  );
  const factors = [
    target,
    rater,
    criterion,
    interactionFactor('tr', [target, rater]),
    interactionFactor('tc', [target, criterion]),
  ];
  return { response: scores.map(({ value }) => value), fixed: [intercept(scores.length)], factors };
}

/** No small move of any estimable variance, up or down or off zero, raises the likelihood. */
function expectTop(model: MixedModel, fit: MixedModelFit): void {
  const ratios = Float64Array.from(fit.factors, ({ variance }) => variance / fit.residual);
  const likelihoodAt = (moved: Float64Array): number =>
    restrictedLikelihood(fit.system, model, moved)?.logLikelihood ?? -Infinity;
  const top = likelihoodAt(ratios);
  expect(top).toBeCloseTo(fit.logLikelihood, 8);
  fit.factors.forEach(({ estimable, name }, k) => {
    if (!estimable) return;
    const value = ratios[k] ?? 0;
    for (const other of value > 0 ? [value * 1.01, value * 0.99, 0, value * 3] : [1e-5, 1e-3, 0.05, 0.5]) {
      const moved = Float64Array.from(ratios);
      moved[k] = other;
      expect(likelihoodAt(moved), `${name} ${value} to ${other}`).toBeLessThan(top + 1e-8);
    }
  });
}

describe('fitted mixed models', () => {
  it('ST1: on any design the answer is a top of the likelihood with finite numbers, or a reason', () => {
    let fitted = 0;
    fc.assert(
      fc.property(shapes, (shape) => {
        const scores = simulate(shape);
        const model = modelFrom(scores);
        if (scores.length === 0) return;
        const fit = fitMixedModel(model);
        if (isUndefined(fit)) {
          expect(['too few observations', 'no variation', 'no residual variation']).toContain(fit.undefined);
          return;
        }
        fitted += 1;
        const ofFactors = fit.factors.flatMap(({ variance, effects }) => [variance, ...effects]);
        const numbers = [
          fit.residual,
          fit.logLikelihood,
          ...ofFactors,
          ...fit.fixed.flatMap(({ estimate, se }) => [estimate, se]),
        ];
        expect(numbers.every(Number.isFinite)).toBe(true);
        expectTop(model, fit);
      }),
      { seed: 5, numRuns: 250 },
    );
    expect(fitted).toBeGreaterThan(150);
  });

  it('ST2: components do not depend on the order of the scores nor on the labels', () => {
    fc.assert(
      fc.property(full, (shape) => {
        const scores = simulate(shape);
        const plain = crossedComponents(scores);
        const shuffled = crossedComponents([...scores].reverse());
        const renamed = crossedComponents(
          scores.map((score) => ({
            ...score,
            target: `t${9 - Number(score.target)}`,
            rater: `x${7 - Number(score.rater)}`,
          })),
        );
        if (isUndefined(plain) || isUndefined(shuffled) || isUndefined(renamed)) {
          const reasons = [plain, shuffled, renamed].map((result) =>
            isUndefined(result) ? result.undefined : 'defined',
          );
          expect(new Set(reasons).size).toBe(1);
          return;
        }
        expect(shuffled.components).toEqual(plain.components);
        for (const [name, value] of Object.entries(plain.components)) {
          expect((renamed.components as Record<string, number>)[name]).toBeCloseTo(value, 5);
        }
      }),
      { seed: 6, numRuns: 60 },
    );
  });
});
