import { expect, it } from 'vitest';
import { repeatDifferences } from '#lib/reconcile/seats/repeatDifferences';
import { evaluatorProfile } from '#lib/reconcile/seats/evaluatorProfile';
import { jackknifed } from '#lib/reconcile/seats/jackknifed';
import { meanInterval, slopeInterval, type Figure } from '#lib/reconcile/seats/leastSquaresInterval';
import type { Panel, PanelScore } from '#lib/reconcile/panel/panel';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { examplePanel } from '../examplePanel';

const few = { undefined: 'too few data' };
const known = (figure: Figure | undefined) =>
  figure && 'value' in figure ? figure : { value: NaN, low: NaN, high: NaN };
const holds = (figure: Figure | undefined, truth: number) => known(figure).low <= truth && truth <= known(figure).high;

const ordersOf = (panel: Panel, order: readonly string[]) =>
  Object.fromEntries(panel.evaluators.map((evaluator) => [evaluator, order]));

/** Eight puppies, six criteria; the first seat is stretched, the second drifts by 0.3 a showing, the third and fourth are plain. */
function profiledPanel(seed: number): { panel: Panel; order: string[] } {
  const random = createSeededRandom(seed);
  const order = Array.from({ length: 8 }, (_, at) => `p${at}`);
  const criteria = Array.from({ length: 6 }, (_, at) => ({ key: `c${at}`, twoSided: false }));
  const evaluators = ['stretched', 'drifting', 'plain', 'other'];
  const scores = order.flatMap((puppy, place) =>
    criteria.flatMap(({ key }) => {
      const quality = random.normal();
      return evaluators.map((evaluator): PanelScore => {
        const seen = quality + 0.3 * random.normal();
        const value = 4 + (evaluator === 'stretched' ? 2 * seen : seen) + (evaluator === 'drifting' ? 0.3 * place : 0);
        return { puppy, evaluator, criterion: key, value };
      });
    }),
  );
  return { panel: { scale: { low: 1, high: 7 }, puppies: order, evaluators, criteria, scores }, order };
}

it('ST1: too few puppies, others or repeats give a reason and no number', () => {
  const panel = examplePanel({ puppies: 4, evaluators: 3, oneSided: 3, twoSided: 1, missing: 0, seed: 1 });
  for (const { evaluator, ...figures } of evaluatorProfile({
    panel,
    orders: ordersOf(panel, panel.puppies),
    repeats: [],
  })) {
    expect(panel.evaluators).toContain(evaluator);
    expect(Object.values(figures)).toEqual([few, few, few, few]);
  }
  const alone = {
    ...panel,
    evaluators: ['seat1', 'silent'],
    scores: panel.scores.filter(({ evaluator }) => evaluator === 'seat1'),
  };
  expect(
    evaluatorProfile({ panel: alone, orders: ordersOf(alone, panel.puppies), repeats: [] }).map(
      ({ agreement, drift }) => [agreement, drift],
    ),
  ).toEqual([
    [few, few],
    [few, few],
  ]);
  expect(
    jackknifed(
      [1, 2, 3],
      () => null,
      (value) => value,
    ),
  ).toEqual({ undefined: 'no variation' });
});

it('ST3: the interval of a mean and of a slope are the textbook ones', () => {
  // Delete-one jackknife of a mean is the classical standard error (Efron and Tibshirani 1993, section 11.2).
  const values = [1, 2, 4, 7, 11];
  const mean = (list: readonly number[]) => list.reduce((sum, one) => sum + one, 0) / list.length;
  const [jack, classical] = [known(jackknifed(values, mean, (value) => value)), known(meanInterval(values, -Infinity))];
  expect(jack.value).toBe(5);
  expect(jack.low).toBeCloseTo(classical.low, 10);
  // s² = 66 / 4, so ± t(0.95; 4) √(16.5 / 5) with t = 2.1318 (Student's table).
  expect(classical.high).toBeCloseTo(5 + 2.1318 * Math.sqrt(16.5 / 5), 3);
  // y = 1, 3, 2, 5 on 0 … 3: slope 1.1, residual squares 2.7, so ± t(0.95; 2) √(1.35 / 5) with t = 2.9200.
  const slope = known(slopeInterval([1, 3, 2, 5].map((y, x) => ({ x, y }))));
  expect(slope.value).toBeCloseTo(1.1, 12);
  expect(slope.low).toBeCloseTo(1.1 - 2.92 * Math.sqrt(1.35 / 5), 3);
});

it('ST3: over simulated panels the intervals hold what was put in about as often as they say', () => {
  const runs = Array.from({ length: 120 }, (_, seed) => {
    const { panel, order } = profiledPanel(seed);
    return evaluatorProfile({ panel, orders: ordersOf(panel, order), repeats: [] });
  });
  const share = (test: (profiles: (typeof runs)[number]) => boolean) => runs.filter(test).length / runs.length;
  const seat = (profiles: (typeof runs)[number], key: string) => profiles.find(({ evaluator }) => evaluator === key);
  // A plain seat is measured against three others of whom one rises by 0.3 a showing: against their mean it sinks by 0.1.
  expect(share((one) => holds(seat(one, 'drifting')?.drift, 0.3))).toBeGreaterThan(0.82);
  expect(share((one) => holds(seat(one, 'plain')?.drift, -0.1))).toBeGreaterThan(0.82);
  expect(share((one) => known(seat(one, 'stretched')?.scaleUse).low > 1)).toBeGreaterThan(0.9);
  expect(share((one) => known(seat(one, 'plain')?.agreement).value > 0.5)).toBeGreaterThan(0.9);
});

it('ST3: self-consistency is the mean absolute difference of the repeat, whoever else scored', () => {
  const { panel, order } = profiledPanel(3);
  const repeats = panel.scores
    .filter(({ puppy, evaluator }) => puppy === 'p0' && evaluator === 'plain')
    .map((score, at) => ({ ...score, value: score.value + (at % 2 === 0 ? 1 : -0.5) }));
  const [, , plain, other] = evaluatorProfile({ panel, orders: ordersOf(panel, order), repeats });
  expect(known(plain?.selfConsistency).value).toBeCloseTo(0.75, 12);
  expect(other?.selfConsistency).toEqual(few);
});

it('ST2: neither the order of rows nor a shift of one seat changes scale use, agreement or drift', () => {
  const { panel, order } = profiledPanel(5);
  const moved = {
    ...panel,
    scores: panel.scores
      .map((score) => (score.evaluator === 'plain' ? { ...score, value: score.value + 1 } : score))
      .reverse(),
  };
  const [before, after] = [panel, moved].map(
    (one) => evaluatorProfile({ panel: one, orders: ordersOf(one, order), repeats: [] })[2],
  );
  for (const key of ['scaleUse', 'agreement', 'drift'] as const) {
    expect(known(after?.[key]).value).toBeCloseTo(known(before?.[key]).value, 9);
    expect(known(after?.[key]).high).toBeCloseTo(known(before?.[key]).high, 9);
  }
});

it('ST3: what a silent repeat showed is told by seat and puppy: cells, how many alike, the shift of one-sided ones and the mean difference', () => {
  const cell = (puppy: string, criterion: string, value: number, evaluator = 'x') => ({
    puppy,
    criterion,
    evaluator,
    value,
  });
  const panel: Panel = {
    scale: { low: 1, high: 7 },
    puppies: ['f', 'm'],
    evaluators: ['x', 'y'],
    criteria: [
      { key: 'front', twoSided: false },
      { key: 'rear', twoSided: false },
      { key: 'neck', twoSided: true },
    ],
    scores: [
      cell('f', 'front', 4),
      cell('f', 'rear', 5),
      cell('f', 'neck', -1),
      cell('m', 'front', 3),
      cell('f', 'front', 2, 'y'),
    ],
  };
  expect(repeatDifferences(panel, [])).toEqual([]);
  expect(
    repeatDifferences(panel, [
      cell('f', 'front', 5),
      cell('f', 'rear', 5),
      cell('f', 'neck', 1),
      cell('f', 'rear', 6, 'y'),
      cell('m', 'neck', 2),
    ]),
  ).toEqual([{ evaluator: 'x', puppy: 'f', cells: 3, alike: 1, shift: 0.5, difference: 1 }]);
  expect(repeatDifferences(panel, [cell('f', 'neck', 0)])).toEqual([
    { evaluator: 'x', puppy: 'f', cells: 1, alike: 0, shift: null, difference: 1 },
  ]);
});
