import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { crossedComponents } from '#lib/stats/crossedComponents';
import { decisionStudy, type DecisionStudy, type StudyComponents } from '#lib/stats/decisionStudy';
import { fitMixedModel } from '#lib/stats/fitMixedModel';
import { threeWayComponents, threeWayMeanSquares } from '#lib/stats/threeWayMeanSquares';
import { modelOf } from './mixedModelCases';
import { expectWithin, readReferenceCase, titled, type Levels, type ReferenceCase } from './referenceCase';

const threeFacets = [
  'gstudy-brennan-pxixo',
  'gstudy-sim-10x5x15',
  'gstudy-sim-10x5x15-missing',
  'gstudy-sim-8x3x12',
  'gstudy-sim-boundary',
];

function scoresOf({ data }: ReferenceCase) {
  return (data['rows'] as [string, string, string, number][]).map(([target, rater, criterion, value]) => ({
    target,
    rater,
    criterion,
    value,
  }));
}

function remlComponents(reference: ReferenceCase): StudyComponents {
  if (reference.id === 'gstudy-brennan-pxi') return itemComponents(reference);
  const crossed = crossedComponents(scoresOf(reference));
  if (isUndefined(crossed)) throw new Error(crossed.undefined);
  return crossed.components;
}

/** Targets × items: an item stands where the rater does. */
function itemComponents(reference: ReferenceCase): StudyComponents {
  const fit = fitMixedModel(modelOf(reference).model);
  if (isUndefined(fit)) throw new Error(fit.undefined);
  return { target: fit.factors[0]?.variance ?? NaN, rater: fit.factors[1]?.variance ?? NaN, residual: fit.residual };
}

function cube(reference: ReferenceCase): number[][][] {
  const scores = scoresOf(reference);
  const levels = (pick: (score: (typeof scores)[number]) => string): string[] => [...new Set(scores.map(pick))];
  const found = new Map(
    scores.map(({ target, rater, criterion, value }) => [`${target} ${rater} ${criterion}`, value]),
  );
  const criteria = levels((score) => score.criterion);
  const raters = levels((score) => score.rater);
  return levels((score) => score.target).map((t) =>
    raters.map((r) => criteria.map((c) => found.get(`${t} ${r} ${c}`) ?? NaN)),
  );
}

const storedNames: Record<string, keyof StudyComponents> = {
  p: 'target',
  j: 'rater',
  t: 'criterion',
  'p:j': 'targetRater',
  'p:t': 'targetCriterion',
  'j:t': 'raterCriterion',
  'p:j:t': 'residual',
  Residual: 'residual',
};

type StoredStudy = Readonly<Record<string, number>>;

function valuesOf(study: DecisionStudy): Record<string, number> {
  const value = (result: DecisionStudy['relative']): number => (isUndefined(result) ? NaN : result.value);
  return {
    relative_error_variance: study.relativeError,
    absolute_error_variance: study.absoluteError,
    e_rho2: value(study.relative),
    phi: value(study.absolute),
    t_fixed_e_rho2: value(study.fixedCriteria),
  };
}

describe.each(['gstudy-brennan-pxi', ...threeFacets])('%s', (id) => {
  const reference = readReferenceCase(id);
  const entries = reference.expected.filter(({ statistic }) => statistic === 'd_study');
  it.each(titled(id, entries))('%s', (name, entry) => {
    const anova = String(entry.options['estimator']).startsWith('ANOVA');
    const components = anova ? threeWayComponents(threeWayMeanSquares(cube(reference))) : remlComponents(reference);
    const stored = entry.values as StoredStudy[];
    expect(stored.length).toBeGreaterThan(0);
    for (const study of stored) {
      const got = valuesOf(
        decisionStudy(components, {
          raters: study['n_judges'] ?? study['n_items'] ?? NaN,
          criteria: study['n_criteria'] ?? 1,
        }),
      );
      for (const [field, value] of Object.entries(study)) {
        if (!field.startsWith('n_'))
          expectWithin(got[field] ?? NaN, value, { tolerance: entry.tolerance, what: `${name} ${field}` });
      }
    }
  });
});

describe.each(threeFacets)('%s', (id) => {
  const reference = readReferenceCase(id);
  const entries = reference.expected.filter(
    ({ statistic }) => statistic === 'anova_mean_squares' || statistic === 'variance_components_anova',
  );
  it.each(titled(id, entries))('%s', (_title, entry) => {
    const squares = threeWayMeanSquares(cube(reference));
    const components = threeWayComponents(squares);
    const stored = Object.entries(entry.values as Levels);
    expect(stored.length).toBe(7);
    for (const [term, value] of stored) {
      const name = storedNames[term] ?? 'residual';
      const got = entry.statistic === 'anova_mean_squares' ? squares[name].meanSquare : components[name];
      expectWithin(got, value ?? NaN, { tolerance: entry.tolerance, what: term });
    }
    const degrees = entry['df'] as Levels | undefined;
    for (const [term, df] of Object.entries(degrees ?? {}))
      expect(squares[storedNames[term] ?? 'residual'].df, term).toBe(df);
  });

  it(`${id}: variance_components_reml from labelled scores, in any order`, () => {
    const entry = reference.expected.find(({ statistic }) => statistic === 'variance_components_reml');
    const scores = scoresOf(reference);
    const crossed = crossedComponents(scores);
    const reversed = crossedComponents([...scores].reverse());
    if (isUndefined(crossed) || isUndefined(reversed) || !entry) throw new Error('undefined');
    expect(reversed.components).toEqual(crossed.components);
    for (const [term, value] of Object.entries(entry.values as Levels)) {
      expectWithin(crossed.components[storedNames[term] ?? 'residual'] ?? NaN, value ?? NaN, {
        tolerance: entry.tolerance,
        what: term,
      });
    }
  });
});

describe('components of thin designs', () => {
  const scores = scoresOf(readReferenceCase('gstudy-sim-8x3x12'));

  it('ST1: a facet with one level and its interactions are left out', () => {
    const one = crossedComponents(scores.filter(({ criterion }) => criterion === 'c1'));
    if (isUndefined(one)) throw new Error(one.undefined);
    expect(Object.keys(one.components).sort()).toEqual(['rater', 'residual', 'target']);
    const oneRater = crossedComponents(scores.filter(({ rater }) => rater === 'j1'));
    if (isUndefined(oneRater)) throw new Error(oneRater.undefined);
    expect(Object.keys(oneRater.components).sort()).toEqual(['criterion', 'residual', 'target']);
  });

  it('ST1: no scores, one target, one score a target, all alike', () => {
    expect(crossedComponents([])).toEqual({ undefined: 'no scores' });
    expect(crossedComponents(scores.filter(({ target }) => target === 'p1'))).toEqual({
      undefined: 'fewer than two units',
    });
    expect(crossedComponents(scores.filter(({ rater, criterion }) => rater === 'j1' && criterion === 'c1'))).toEqual({
      undefined: 'too few observations',
    });
    expect(crossedComponents(scores.map((score) => ({ ...score, value: 4 })))).toEqual({ undefined: 'no variation' });
  });

  it('ST1: a study without variance and without error has no coefficient', () => {
    const study = decisionStudy({ target: 0, residual: 0 }, { raters: 2, criteria: 3 });
    expect([study.relative, study.absolute, study.fixedCriteria]).toEqual([
      { undefined: 'no variation' },
      { undefined: 'no variation' },
      { undefined: 'no variation' },
    ]);
  });
});
