import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { conditionalDeviations } from '#lib/stats/conditionalDeviations';
import { fitMixedModel, type MixedModelFit } from '#lib/stats/fitMixedModel';
import type { MixedModel } from '#lib/stats/mixedModel';
import { predictionErrors } from '#lib/stats/predictionErrors';
import { varianceErrors } from '#lib/stats/varianceErrors';
import { modelOf } from './mixedModelCases';
import {
  expectWithin,
  readReferenceCase,
  titled,
  type ExpectedEntry,
  type Levels,
  type ReferenceCase,
} from './referenceCase';

const ids = [
  'icc-complete-wine-rating-reml',
  'icc-missing-expsy',
  'icc-missing-penicillin',
  'icc-missing-shrout-fleiss',
  'icc-missing-wine-response',
  'lmm-criteria-fixed-missing',
  'lmm-dyestuff2-zero',
  'lmm-insteval-dept15',
  'lmm-oxide-nested',
  'lmm-penicillin',
  'lmm-wine-crossed',
  'lmm-wine-fixed-effects',
  'gstudy-brennan-pxi',
  'gstudy-brennan-pxixo',
  'gstudy-sim-10x5x15',
  'gstudy-sim-10x5x15-missing',
  'gstudy-sim-8x3x12',
  'gstudy-sim-boundary',
];

type Fitted = {
  readonly reference: ReferenceCase;
  readonly model: MixedModel;
  readonly labels: Readonly<Record<string, readonly string[]>>;
  readonly fit: MixedModelFit;
};

function fitCase(id: string): Fitted {
  const reference = readReferenceCase(id);
  const { model, labels } = modelOf(reference);
  const fit = fitMixedModel(model);
  if (isUndefined(fit)) throw new Error(`${id}: ${fit.undefined}`);
  return { reference, model, labels, fit };
}

type Check = (fitted: Fitted, entry: ExpectedEntry) => void;

/** Compares a list of numbers with the stored object or array, key by key; a stored null must be a null of ours. */
function compare(
  entry: ExpectedEntry,
  { stored, got, what }: { stored: unknown; got: Readonly<Record<string, number | null | undefined>>; what: string },
): void {
  const entries = Object.entries(stored as Levels);
  expect(entries.length).toBeGreaterThan(0);
  for (const [key, value] of entries) {
    const ours = got[key];
    if (value === null) expect(ours, `${what} ${key}`).toBeNull();
    else expectWithin(ours ?? NaN, value, { tolerance: entry.tolerance, what: `${what} ${key}` });
  }
}

function variancesOf(fit: MixedModelFit, residualName = 'Residual'): Record<string, number> {
  return {
    ...Object.fromEntries(fit.factors.map(({ name, variance }) => [name, variance])),
    [residualName]: fit.residual,
  };
}

const keyed = (
  labels: readonly string[] | undefined,
  values: readonly number[] | undefined,
): Record<string, number | undefined> => Object.fromEntries((labels ?? []).map((label, i) => [label, values?.[i]]));

const checks: Record<string, Check> = {
  variance_components_reml({ fit }, entry) {
    compare(entry, { stored: entry.values, got: variancesOf(fit), what: 'variance' });
    const deviations = Object.fromEntries(
      Object.entries(variancesOf(fit)).map(([name, value]) => [name, Math.sqrt(value)]),
    );
    compare(entry, { stored: entry['sd'], got: deviations, what: 'sd' });
  },
  variance_components_reml_se({ fit }, entry) {
    const errors = varianceErrors(fit);
    const got = {
      ...Object.fromEntries(fit.factors.map(({ name }, k) => [name, errors.factors[k]])),
      Residual: errors.residual,
    };
    compare(entry, { stored: entry.values, got, what: 'variance se' });
  },
  fixed_effects({ fit }, entry) {
    const names = Object.keys(entry.values as Levels);
    compare(entry, {
      stored: entry.values,
      got: keyed(
        names,
        fit.fixed.map(({ estimate }) => estimate),
      ),
      what: 'fixed',
    });
    compare(entry, {
      stored: entry['se'],
      got: keyed(
        names,
        fit.fixed.map(({ se }) => se),
      ),
      what: 'fixed se',
    });
  },
  reml_loglik({ fit }, entry) {
    expectWithin(fit.logLikelihood, entry.value ?? NaN, { tolerance: entry.tolerance, what: 'log-likelihood' });
  },
  blup({ model, fit, labels }, entry) {
    const facet = String(entry.options['facet']);
    const effects = fit.factors.find(({ name }) => name === facet)?.effects;
    compare(entry, { stored: entry.values, got: keyed(labels[facet], effects), what: 'effect' });
    compare(entry, {
      stored: entry['conditional_sd'],
      got: keyed(labels[facet], conditionalDeviations(model, fit)[facet]),
      what: 'conditional sd',
    });
    const summaries = {
      min: Math.min(...(effects ?? [])),
      max: Math.max(...(effects ?? [])),
      sum_of_squares: (effects ?? []).reduce((sum, u) => sum + u * u, 0),
    };
    for (const [name, got] of Object.entries(summaries)) {
      if (name in entry) expectWithin(got, entry[name] as number, { tolerance: entry.tolerance, what: name });
    }
  },
  blup_prediction_error_sd({ fit, labels }, entry) {
    const facet = String(entry.options['facet']);
    compare(entry, {
      stored: entry.values,
      got: keyed(labels[facet], predictionErrors(fit, facet).sd),
      what: 'prediction error',
    });
  },
  blup_difference_se({ fit, labels }, entry) {
    const facet = String(entry.options['facet']);
    const order = (entry.options['order'] as string[] | undefined) ?? labels[facet] ?? [];
    const { differenceSe } = predictionErrors(fit, facet);
    const stored = entry.values as number[][];
    expect(stored.length).toBe(differenceSe.length);
    stored.forEach((row, i) =>
      row.forEach((value, j) => {
        const at = (label: string | undefined): number => (labels[facet] ?? []).indexOf(label ?? '');
        const got = differenceSe[at(order[i])]?.[at(order[j])] ?? NaN;
        expectWithin(got, value, { tolerance: entry.tolerance, what: `difference ${i} ${j}` });
      }),
    );
  },
};

/** Checked in intraclassCorrelation.test.ts and decisionStudy.test.ts. */
const elsewhere = new Set(['icc', 'd_study', 'anova_mean_squares', 'variance_components_anova']);

describe.each(ids)('%s', (id) => {
  const fitted = fitCase(id);
  const entries = fitted.reference.expected.filter(({ statistic }) => !elsewhere.has(statistic));
  it.each(titled(id, entries))('%s', (_title, entry) => {
    const check = checks[entry.statistic];
    if (!check) throw new Error(`no check for ${entry.statistic}`);
    check(fitted, entry);
  });
});
