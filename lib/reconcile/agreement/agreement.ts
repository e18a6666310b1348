import { intraclassCorrelations, type IccResults } from '#lib/stats/intraclassCorrelation';
import { isUndefined, type CoefficientResult, type Undefined } from '#lib/stats/coefficient';
import { cardTotals } from './cardTotals';
import { alphaOf, criterionAgreement, type CriterionAgreement } from './criterionAgreement';
import { criterionTable } from './criterionTable';
import type { Panel, PanelCriterion } from '../panel/panel';
import { panelComponents, type PanelComponents } from './panelComponents';
import { panelReliability, type FacetCounts, type PanelReliability } from './panelReliability';

export type Agreement = {
  /** Of the cards' weighted totals: α interval, and the six intraclass correlations; units are puppies. */
  readonly sheet: { readonly alpha: CoefficientResult; readonly icc: IccResults };
  readonly byCriterion: Readonly<Record<string, CriterionAgreement>>;
  readonly components: PanelComponents | Undefined;
  readonly reliability: PanelReliability;
};

/**
 * How far the evaluators of a panel agree, criterion by criterion and over the sheet, and where their differences come from.
 * Never throws on thin data: what does not exist says why (ST1). The order of rows and names does not matter (ST2).
 * @param weights by criterion, for the totals; equal when left out.
 */
export function agreement(panel: Panel, weights: Readonly<Record<string, number>> = equalWeights(panel)): Agreement {
  const totals = cardTotals(panel, { weights });
  const fitted = panelComponents(panel);
  return {
    sheet: { alpha: alphaOf(totals, 'interval'), icc: intraclassCorrelations(totals) },
    byCriterion: Object.fromEntries(
      panel.criteria.map((criterion) => [
        criterion.key,
        criterionAgreement(criterionTable(panel, criterion.key), stepsOf(panel, criterion)),
      ]),
    ),
    components: isUndefined(fitted) ? fitted : fitted.components,
    reliability: panelReliability(fitted, facetCounts(panel)),
  };
}

function equalWeights({ criteria }: Panel): Record<string, number> {
  return Object.fromEntries(criteria.map(({ key }) => [key, 1]));
}

function stepsOf({ scale }: Panel, { twoSided }: PanelCriterion): number[] {
  const { low, high } = twoSided ? { low: -3, high: 3 } : scale;
  return Array.from({ length: high - low + 1 }, (_, at) => low + at);
}

/** Puppies, evaluators and criteria that have a score. */
function facetCounts({ scores }: Panel): FacetCounts {
  const count = (names: readonly string[]) => new Set(names).size;
  return {
    puppies: count(scores.map(({ puppy }) => puppy)),
    evaluators: count(scores.map(({ evaluator }) => evaluator)),
    criteria: count(scores.map(({ criterion }) => criterion)),
  };
}
