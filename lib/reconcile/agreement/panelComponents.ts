import { isUndefined, type Undefined } from '#lib/stats/coefficient';
import { fitMixedModel } from '#lib/stats/fitMixedModel';
import { interactionFactor, intercept, labelledFactor, type MixedModel } from '#lib/stats/mixedModel';
import { canonicalPanel } from '../panel/canonicalPanel';
import { componentCovariance, type Covariance } from './componentCovariance';
import type { Panel } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';

export const componentNames = [
  'puppy',
  'evaluator',
  'criterion',
  'puppyEvaluator',
  'puppyCriterion',
  'evaluatorCriterion',
  'residual',
] as const;
export type ComponentName = (typeof componentNames)[number];

/** Variances in squared points; one that the design cannot show is left out. */
export type PanelComponents = Readonly<Partial<Record<ComponentName, number>>>;

/** The estimates, and how uncertain they are together. */
export type FittedComponents = { readonly components: PanelComponents; readonly covariance: Covariance };

/**
 * Variance components of the scores' own quality by REML, puppies × evaluators × criteria crossed and all three random, any cells
 * missing. A facet with one level, its interactions, and what cannot be told from the residual are left out.
 */
export function panelComponents(panel: Panel): FittedComponents | Undefined {
  if (panel.scores.length === 0) return { undefined: 'no scores' };
  const model = crossedModel(panel);
  const fit = fitMixedModel(model);
  if (isUndefined(fit)) return fit;
  const found = new Map(
    fit.factors.filter(({ estimable }) => estimable).map(({ name, variance }): [string, number] => [name, variance]),
  );
  found.set('residual', fit.residual);
  return {
    components: Object.fromEntries(
      componentNames.flatMap((name) => (found.has(name) ? [[name, found.get(name)]] : [])),
    ),
    covariance: componentCovariance(fit, model),
  };
}

function crossedModel(panel: Panel): MixedModel {
  const { puppies, seats, criteria, cells } = canonicalPanel(panel, new Set());
  const puppy = {
    ...labelledFactor(
      'puppy',
      cells.map((cell) => cell.puppy),
    ),
    wide: puppies.length > 1,
  };
  const evaluator = {
    ...labelledFactor(
      'evaluator',
      cells.map((cell) => cell.seat),
    ),
    wide: seats.length > 1,
  };
  const criterion = {
    ...labelledFactor(
      'criterion',
      cells.map((cell) => cell.criterion),
    ),
    wide: criteria.length > 1,
  };
  const interactions = [
    { name: 'puppyEvaluator', pair: [puppy, evaluator] },
    { name: 'puppyCriterion', pair: [puppy, criterion] },
    { name: 'evaluatorCriterion', pair: [evaluator, criterion] },
  ] as const;
  const factors = [
    ...[puppy, evaluator, criterion].filter(({ wide }) => wide),
    ...interactions
      .filter(({ pair }) => pair.every(({ wide }) => wide))
      .map(({ name, pair }) => interactionFactor(name, pair)),
  ];
  const response = cells.map((cell) => scoreQuality(panel, cell.value, criteria[cell.criterion]));
  return { response, fixed: [intercept(response.length)], factors };
}
