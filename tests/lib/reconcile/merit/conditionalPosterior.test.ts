import { expect, it } from 'vitest';
import { conditionalPosterior } from '#lib/reconcile/merit/conditionalPosterior';
import { effectsDeviation, effectsDrawSize, effectsMean } from '#lib/reconcile/merit/effectsDraw';
import type { DegreeFold } from '#lib/reconcile/merit/foldDegrees';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import type { Panel } from '#lib/reconcile/panel/panel';
import { panelDesign } from '#lib/reconcile/merit/panelDesign';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { denseMeritModel } from '../denseMeritModel';

/** Scores of the second family come as quality: this is about the model, not the fold. */
const asQuality: DegreeFold = ({ tables }) => tables.map(({ cells }) => cells);
const named = (kind: string, count: number) => Array.from({ length: count }, (_, at) => `${kind}${at + 1}`);
const shared = {
  puppy: 0.6,
  puppyCriterion: 0.4,
  evaluator: 0.7,
  evaluatorCriterion: 0.3,
  puppyFolded: 0.9,
  evaluatorFolded: 0.5,
  foldedNoise: 1.2,
  likingsAlike: false,
  noiseRepeated: 0.6,
};
const liking = { seat1: 0.3, seat2: 0.9, seat3: 0.5 };
const noise = { seat1: 0.8, seat2: 0.5, seat3: 1.1 };

/** Four puppies, three seats, two criteria of each family; one cell in four missing; one puppy unjudged. */
function examplePanel(): Panel {
  const random = createSeededRandom(20);
  const criteria = named('c', 4).map((key, at) => ({ key, twoSided: at > 1 }));
  const puppies = named('puppy', 4);
  const scores = criteria.flatMap(({ key }) =>
    puppies
      .slice(0, 3)
      .flatMap((puppy) =>
        named('seat', 3).flatMap((evaluator) =>
          random.uniform() < 0.25 ? [] : [{ puppy, evaluator, criterion: key, value: Math.round(2 * random.normal()) }],
        ),
      ),
  );
  return { scale: { low: -3, high: 3 }, puppies, evaluators: named('seat', 3), criteria, scores };
}

function bySeat(seats: readonly string[], of: Readonly<Record<string, number>>): number[] {
  return seats.map((seat) => of[seat] ?? NaN);
}

it.each([{}, { seat3: 1, seat1: 0.7 }, { seat2: 1, seat1: 0.4, seat3: 0.8 }] as readonly Readonly<
  Record<string, number>
>[])(
  'ST3: the likelihood, means and covariances given the SDs are those of the model written out densely; repeating: %j',
  (repeats) => {
    const panel = examplePanel();
    const untied = panelDesign(panel, new Set(panel.criteria.map(({ key }) => key)), asQuality);
    const design = { ...untied, repeats: untied.seats.map((seat) => repeats[seat] ?? 0) };
    const sds = { ...shared, liking: bySeat(design.seats, liking), noise: bySeat(design.seats, noise) };
    const posterior = conditionalPosterior(design, meritPriors)(sds);
    const dense = denseMeritModel(panel, meritPriors, {
      ...shared,
      repeats,
      liking,
      noise,
      rounding: { oneSided: 1 / 12, folded: 4 / 12 },
    });
    expect(posterior.logLikelihood).toBeCloseTo(dense.logLikelihood, 9);

    const mean = effectsMean(design, posterior);
    const size = effectsDrawSize(design);
    const columns = Array.from({ length: size }, (_, at) => {
      const z = new Float64Array(size);
      z[at] = 1;
      return effectsDeviation(design, posterior, z).standing;
    });
    const places = design.criteria.flatMap(({ key }, c) =>
      design.puppies.map((puppy, p) => ({ cell: [puppy, key] as const, at: c * design.puppies.length + p })),
    );
    for (const a of places) {
      expect(mean.standing[a.at]).toBeCloseTo(dense.standing(...a.cell).mean, 9);
      for (const b of places) {
        const covariance = columns.reduce((sum, column) => sum + (column[a.at] ?? NaN) * (column[b.at] ?? NaN), 0);
        expect(covariance).toBeCloseTo(dense.covariance(a.cell, b.cell), 9);
      }
    }
    design.pairs.puppies.forEach((puppy, at) => {
      const names = [design.puppies[puppy] ?? '', design.seats[design.pairs.seats[at] ?? -1] ?? ''] as const;
      expect(mean.liking[at]).toBeCloseTo(dense.liking(...names), 9);
    });
  },
);

it('ST2: what is remembered between evaluations does not change an answer', () => {
  const panel = examplePanel();
  const design = panelDesign(panel, new Set(), asQuality);
  const of = conditionalPosterior(design, meritPriors);
  const sds = { ...shared, liking: bySeat(design.seats, liking), noise: bySeat(design.seats, noise) };
  const first = of(sds).logLikelihood;
  of({ ...sds, puppy: 1 });
  of({ ...sds, puppyCriterion: 1 });
  of({ ...sds, foldedNoise: 2 });
  expect(of(sds).logLikelihood).toBe(first);
});
