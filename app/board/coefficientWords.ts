export type CoefficientWords = { readonly name: string; readonly meaning: string };

const shroutFleiss = 'Shrout & Fleiss 1979; McGraw & Wong 1996';

/** Coefficients of the drawer in the order shown, by their key, with what they are and the published source. */
const known: Readonly<Record<string, CoefficientWords>> = {
  alpha: { name: 'Krippendorff’s α, interval', meaning: 'Card totals, steps counted as equal. Krippendorff 2011.' },
  'alpha.ordinal': { name: 'Krippendorff’s α, ordinal', meaning: 'Only the order of the steps counts. Decides the word on the board. Krippendorff 2011.' },
  'alpha.interval': { name: 'Krippendorff’s α, interval', meaning: 'Steps counted as equal. Krippendorff 2011.' },
  'alpha.nominal': { name: 'Krippendorff’s α, nominal', meaning: 'Same step or not, nothing between. Krippendorff 2011.' },
  'icc.1': { name: 'ICC(1), ICC(1,1)', meaning: `One seat, seats not told apart. ${shroutFleiss}.` },
  'icc.A,1': { name: 'ICC(A,1), ICC(2,1)', meaning: `One seat, its level counts. ${shroutFleiss}.` },
  'icc.C,1': { name: 'ICC(C,1), ICC(3,1)', meaning: `One seat, its level does not count. ${shroutFleiss}.` },
  'icc.k': { name: 'ICC(k), ICC(1,k)', meaning: `Mean of the panel, seats not told apart. ${shroutFleiss}.` },
  'icc.A,k': { name: 'ICC(A,k), ICC(2,k)', meaning: `Mean of the panel, levels count. ${shroutFleiss}.` },
  'icc.C,k': { name: 'ICC(C,k), ICC(3,k)', meaning: `Mean of the panel, levels do not count. ${shroutFleiss}.` },
  kendallW: { name: 'Kendall’s W', meaning: 'Do the seats rank the puppies alike, ties corrected. Kendall & Babington Smith 1939.' },
  lightKappa: { name: 'Light’s κ', meaning: 'Mean of the quadratically weighted κ over pairs of seats. Light 1971.' },
  fleissKappa: { name: 'Fleiss’ κ', meaning: 'Same step or not, over all seats. Fleiss 1971.' },
  acOne: { name: 'Gwet’s AC1', meaning: 'Same step or not, with a chance term that holds up when nearly all agree. Gwet 2008.' },
  acTwo: { name: 'Gwet’s AC2', meaning: 'The same with quadratic weights over the steps. Gwet 2014.' },
  percent: { name: 'Agreeing pairs', meaning: 'Mean share of pairs of seats on the same step, as a fraction. No allowance for chance.' },
};

const order = Object.keys(known);

export function coefficientWords(key: string): CoefficientWords {
  return (Object.hasOwn(known, key) ? known[key] : undefined) ?? { name: key, meaning: '' };
}

/** Known coefficients first, in the order of the drawer; others after, by name. */
export function compareCoefficients(first: string, second: string): number {
  const [one, other] = [order.indexOf(first), order.indexOf(second)];
  if (one >= 0 && other >= 0) return one - other;
  return one >= 0 ? -1 : other >= 0 ? 1 : first.localeCompare(second);
}
