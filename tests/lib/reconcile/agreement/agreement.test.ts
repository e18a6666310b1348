import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreement } from '#lib/reconcile/agreement/agreement';
import { cardTotals } from '#lib/reconcile/agreement/cardTotals';
import type { Panel, PanelScore } from '#lib/reconcile/panel/panel';
import { panelComponents, type ComponentName, type FittedComponents } from '#lib/reconcile/agreement/panelComponents';
import { panelReliability } from '#lib/reconcile/agreement/panelReliability';
import { krippendorffAlpha } from '#lib/stats/krippendorffAlpha';
import { fullSize } from '#tests/support/faultSize';
import { expectWithin, readReferenceCase } from '#tests/lib/stats/referenceCase';

type Cell = readonly [puppy: string, evaluator: string, criterion: string, value: number];

function panelOf(
  cells: readonly Cell[],
  { twoSided = [], scale = { low: 1, high: 7 } }: { twoSided?: readonly string[]; scale?: Panel['scale'] } = {},
): Panel {
  const scores = cells.map(
    ([puppy, evaluator, criterion, value]): PanelScore => ({ puppy, evaluator, criterion, value }),
  );
  const names = (of: (score: PanelScore) => string) => [...new Set(scores.map(of))];
  return {
    scale,
    puppies: names(({ puppy }) => puppy),
    evaluators: names(({ evaluator }) => evaluator),
    criteria: names(({ criterion }) => criterion).map((key) => ({ key, twoSided: twoSided.includes(key) })),
    scores,
  };
}

/** The stored names of the components, in the case files' letters. */
const stored: Readonly<Record<string, ComponentName>> = {
  p: 'puppy',
  j: 'evaluator',
  t: 'criterion',
  'p:j': 'puppyEvaluator',
  'p:t': 'puppyCriterion',
  'j:t': 'evaluatorCriterion',
  Residual: 'residual',
};

function fitted(panel: Panel): FittedComponents {
  const found = panelComponents(panel);
  if ('undefined' in found) return expect.fail(found.undefined);
  return found;
}

/** Every number and every reason in an answer. */
function leaves(value: unknown): unknown[] {
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(leaves) : [value];
}

describe.each(['gstudy-sim-8x3x12', 'gstudy-sim-boundary', 'gstudy-sim-10x5x15', 'gstudy-sim-10x5x15-missing'])(
  '%s',
  (id) => {
    const reference = readReferenceCase(id);
    const panel = panelOf(reference.data['rows'] as Cell[], { scale: { low: 1, high: 10 } });

    it(`${id}: components are lme4's REML estimates`, () => {
      const entry =
        reference.expected.find(({ statistic }) => statistic === 'variance_components_reml') ?? expect.unreachable();
      const { components } = fitted(panel);
      for (const [name, value] of Object.entries(entry.values as Record<string, number>)) {
        expectWithin(components[stored[name] ?? 'residual'] ?? NaN, value, { tolerance: entry.tolerance, what: name });
      }
    });

    it(`${id}: the covariances agree with the Fisher standard errors`, () => {
      const entry =
        reference.expected.find(({ statistic }) => statistic === 'variance_components_reml_se') ?? expect.unreachable();
      const { covariance } = fitted(panel);
      const complete = !id.endsWith('missing');
      for (const [name, se] of Object.entries(entry.values as Record<string, number | null>)) {
        const found = Math.sqrt(covariance(stored[name] ?? '', stored[name] ?? ''));
        if (se === null) expect(found, name).toBe(0);
        // Average and expected information coincide on a complete table away from the boundary, and nearly so elsewhere.
        else
          expectWithin(found, se, {
            tolerance: { abs: 1e-6, rel: complete && id !== 'gstudy-sim-boundary' ? 1e-4 : 0.1 },
            what: name,
          });
      }
    });

    it(`${id}: the decision study gives Brennan's coefficients`, () => {
      const entry =
        reference.expected.find(
          ({ statistic, options }) => statistic === 'd_study' && options['estimator'] === 'REML',
        ) ?? expect.unreachable();
      for (const row of entry.values as { n_judges: number; n_criteria: number; e_rho2: number; phi: number }[]) {
        const { relative, absolute } = panelReliability(fitted(panel), {
          puppies: panel.puppies.length,
          evaluators: row.n_judges,
          criteria: row.n_criteria,
        });
        if (row.n_judges === 1) {
          expect(relative).toEqual({ undefined: 'one rater' });
          continue;
        }
        if ('undefined' in relative || 'undefined' in absolute) return expect.unreachable();
        const at = { tolerance: entry.tolerance, what: `${row.n_judges} evaluators, ${row.n_criteria} criteria` };
        expectWithin(relative.value, row.e_rho2, at);
        expectWithin(absolute.value, row.phi, at);
      }
    });

    it(`${id}: the study counts up to three more evaluators, each better than the last, with limits around it`, () => {
      const { reliability } = agreement(panel);
      expect(reliability.study.map(({ evaluators }) => evaluators)).toEqual(
        Array.from({ length: panel.evaluators.length + 3 }, (_, at) => at + 1),
      );
      let last = 0;
      for (const { relative } of reliability.study) {
        if ('undefined' in relative || relative.low === null || relative.high === null) return expect.unreachable();
        expect(relative.value).toBeGreaterThan(last);
        expect(relative.low).toBeLessThan(relative.value);
        expect(relative.high).toBeGreaterThan(relative.value);
        last = relative.value;
      }
      expect(reliability.study[panel.evaluators.length - 1]).toEqual({
        evaluators: panel.evaluators.length,
        relative: reliability.relative,
        absolute: reliability.absolute,
      });
    });
  },
);

describe('reliability', () => {
  it('icc-shrout-fleiss-1979: its limits lie near the exact F limits of ICC(C,k)', () => {
    // Shrout & Fleiss 1979, table 2; ICC(3,k) = .91, limits .68 to .99 (McGraw & Wong 1996 give the formula).
    const rows = readReferenceCase('icc-shrout-fleiss-1979').data['values'] as number[][];
    const found = agreement(
      panelOf(
        rows.flatMap((row, p) => row.map((score, j): Cell => [`p${p}`, `j${j}`, 'c', score])),
        { scale: { low: 1, high: 10 } },
      ),
    );
    const [exact, delta] = [found.sheet.icc['C,k'], found.reliability.relative];
    if ('undefined' in exact || 'undefined' in delta) return expect.unreachable();
    expect(delta.value).toBeCloseTo(exact.value, 9);
    expect(delta.low).toBeCloseTo(exact.low ?? NaN, 1);
    expect(delta.high).toBeCloseTo(exact.high ?? NaN, 1);
  });
});

describe('agreement of a panel', () => {
  const cells: readonly Cell[] = [
    ['a', 'J', 'coat', 5],
    ['a', 'K', 'coat', 6],
    ['a', 'J', 'neck', -2],
    ['a', 'K', 'neck', 2],
    ['b', 'J', 'coat', 3],
    ['b', 'K', 'coat', 3],
    ['b', 'J', 'neck', 0],
    ['b', 'K', 'neck', 0],
    ['c', 'J', 'coat', 2],
    ['c', 'K', 'coat', 1],
    ['c', 'J', 'neck', 2],
    ['c', 'K', 'neck', -2],
  ];

  it('ST3: takes a two-sided criterion on its signed degree, so that opposite directions disagree', () => {
    const { byCriterion, sheet } = agreement(panelOf(cells, { twoSided: ['neck'] }));
    const signed = [
      [-2, 2],
      [0, 0],
      [2, -2],
    ];
    expect(byCriterion['neck']?.alpha.interval).toMatchObject({
      value: (krippendorffAlpha(signed, 'interval') as { value: number }).value,
    });
    expect((byCriterion['neck']?.alpha.interval as { value: number }).value).toBeLessThan(0);
    // By quality both evaluators said the same of the neck: the totals differ in the coat alone.
    expect((sheet.alpha as { value: number }).value).toBeGreaterThan(0.5);
  });

  it('ST1: leaves kappa, AC and percent undefined for a score between two steps, and nothing else', () => {
    const found =
      agreement(panelOf([...cells, ['d', 'J', 'coat', 4.5], ['d', 'K', 'coat', 5]], { twoSided: ['neck'] }))
        .byCriterion['coat'] ?? expect.unreachable();
    for (const name of ['acOne', 'acTwo', 'percent', 'lightKappa', 'fleissKappa'] as const)
      expect(found[name], name).toEqual({ undefined: 'off the scale' });
    for (const coefficient of [found.kendallW, ...Object.values(found.alpha), ...Object.values(found.icc)])
      expect(coefficient).toHaveProperty('value');
  });

  it('counts as raters of a criterion those who judged it: a seat that cannot touch takes nobody out', () => {
    const ribs: readonly Cell[] = [
      ['a', 'J', 'ribs', 5],
      ['a', 'K', 'ribs', 6],
      ['b', 'J', 'ribs', 3],
      ['b', 'K', 'ribs', 4],
      ['c', 'J', 'ribs', 1],
      ['c', 'K', 'ribs', 2],
    ];
    const remote: readonly Cell[] = [
      ['a', 'L', 'coat', 4],
      ['b', 'L', 'coat', 4],
    ];
    const [withRemote, without] = [agreement(panelOf([...ribs, ...remote])), agreement(panelOf(ribs))];
    expect(withRemote.byCriterion['ribs']).toEqual(without.byCriterion['ribs']);
    expect(without.byCriterion['ribs']?.kendallW).toMatchObject({ value: 1 });
  });

  it('leaves out of the components a facet with one level and what is one with the residual', () => {
    const names = (panel: Panel) => Object.keys(fitted(panel).components);
    const two = (criterion: string) => panelOf(cells.filter(([, , name]) => name === criterion));
    expect(names(two('coat'))).toEqual(['puppy', 'evaluator', 'residual']);
    expect(
      names(
        panelOf(
          cells.filter(([, evaluator]) => evaluator === 'J'),
          { twoSided: ['neck'] },
        ),
      ),
    ).toEqual(['puppy', 'criterion', 'residual']);
  });

  it('ST1: says why there is no reliability', () => {
    const one = agreement(panelOf(cells.filter(([, evaluator]) => evaluator === 'J'))).reliability;
    expect([one.relative, one.absolute, one.study[3]]).toEqual([
      { undefined: 'one rater' },
      { undefined: 'one rater' },
      { evaluators: 4, relative: { undefined: 'one rater' }, absolute: { undefined: 'one rater' } },
    ]);
    const lone = agreement(panelOf(cells.filter(([puppy]) => puppy === 'a'))).reliability;
    expect(lone.relative).toEqual({ undefined: 'fewer than two units' });
    // Each puppy seen once: nothing tells puppies from the rest.
    const once = agreement(
      panelOf([
        ['a', 'J', 'coat', 3],
        ['b', 'K', 'coat', 5],
        ['c', 'K', 'coat', 4],
      ]),
    ).reliability;
    expect(once.absolute).toEqual({ undefined: 'too few observations' });
  });

  it('ST1: every figure of any small panel is a finite number or has a reason, and ST2: the order of rows changes none', () => {
    const cell = fc.tuple(
      fc.constantFrom('a', 'b', 'c', 'd'),
      fc.constantFrom('J', 'K', 'L'),
      fc.constantFrom('coat', 'neck', 'ribs'),
      fc.integer({ min: 1, max: 3 }),
    );
    const some = fc.uniqueArray(cell, {
      maxLength: 24,
      selector: ([puppy, evaluator, criterion]) => `${puppy} ${evaluator} ${criterion}`,
    });
    fc.assert(
      fc.property(some, fc.infiniteStream(fc.nat()), (rows, keys) => {
        const panel = panelOf(rows, { twoSided: ['neck'] });
        const found = agreement(panel);
        for (const leaf of leaves(found))
          expect(leaf === null || typeof leaf === 'string' || Number.isFinite(leaf), JSON.stringify(found)).toBe(true);
        const shuffled = rows
          .map((row) => ({ row, key: Number(keys.next().value) }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }) => row);
        expect(agreement(panelOf(shuffled, { twoSided: ['neck'] }))).toEqual(found);
      }),
      { numRuns: fullSize ? 500 : 60 },
    );
  });
});

describe('card totals', () => {
  it("are weighted mean qualities, each from its criterion's own mean", () => {
    const panel = panelOf(
      [
        ['a', 'J', 'coat', 6],
        ['a', 'J', 'neck', -1],
        ['b', 'J', 'coat', 2],
        ['b', 'J', 'neck', 0],
      ],
      { twoSided: ['neck'] },
    );
    // Quality: coat 6, 2 (mean 4); neck 7 - 2|d| = 5, 7 (mean 6). Weights 3 and 1.
    expect(cardTotals(panel, { weights: { coat: 3, neck: 1 } })).toEqual([[(3 * 2 - 1) / 4], [(3 * -2 + 1) / 4]]);
  });

  it('give a card no credit for lacking a low-scoring criterion, and are null without anything that weighs', () => {
    const panel = panelOf([
      ['a', 'J', 'coat', 6],
      ['a', 'J', 'ears', 2],
      ['b', 'J', 'coat', 6],
      ['a', 'K', 'ears', 2],
      ['b', 'L', 'tail', 7],
    ]);
    expect(cardTotals(panel, { weights: { coat: 1, ears: 1, tail: 0 } })).toEqual([
      [0, 0],
      [0, null],
    ]);
  });
});
