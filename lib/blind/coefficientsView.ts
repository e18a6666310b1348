import type { CoefficientsView } from '../contract/boardView';
import type { Agreement } from '#lib/reconcile/agreement/agreement';
import type { CoefficientResult } from '../stats/coefficient';

/** The drawer: every coefficient under one flat name, "alpha.ordinal", "icc.A,1". */
export function coefficientsView(agreement: Agreement): CoefficientsView {
  return {
    sheet: flat(agreement.sheet),
    byCriterion: Object.fromEntries(
      Object.entries(agreement.byCriterion).map(([criterion, all]) => [criterion, flat(all)]),
    ),
  };
}

type Group = CoefficientResult | Readonly<Record<string, CoefficientResult>>;

function flat(groups: Readonly<Record<string, Group>>): CoefficientsView['sheet'] {
  return Object.fromEntries(
    Object.entries(groups).flatMap(([name, group]) =>
      isCoefficient(group)
        ? [[name, copy(group)]]
        : Object.entries(group).map(([form, one]) => [`${name}.${form}`, copy(one)]),
    ),
  );
}

function isCoefficient(group: Group): group is CoefficientResult {
  return 'value' in group && typeof group.value === 'number'
    ? true
    : 'undefined' in group && typeof group.undefined === 'string';
}

function copy(one: CoefficientResult): CoefficientsView['sheet'][string] {
  return 'undefined' in one ? { undefined: one.undefined } : { value: one.value, low: one.low, high: one.high };
}
