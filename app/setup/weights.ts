import type { Sheet } from '#lib/sheet/sheet';

export type Weights = Record<string, number>;

/** A weight for each criterion of the sheet and no other: kept where there is one, else counting once. */
export function fitWeights(weights: Readonly<Weights>, { criteria }: Pick<Sheet, 'criteria'>): Weights {
  return Object.fromEntries(criteria.map(({ key }) => [key, weights[key] ?? 1]));
}

export function equalWeights({ criteria }: Pick<Sheet, 'criteria'>): Weights {
  return Object.fromEntries(criteria.map(({ key }) => [key, 1]));
}

/** "All equal", or how many differ from counting once. */
export function weightsWords(weights: Readonly<Weights>, { criteria }: Pick<Sheet, 'criteria'>): string {
  const given = criteria.map(({ key }) => weights[key] ?? 1);
  if (given.every((weight) => weight === 0)) return 'nothing counts yet';
  if (new Set(given).size === 1) return 'all criteria count alike';
  const out = given.filter((weight) => weight === 0).length;
  const more = given.filter((weight) => weight > 1).length;
  return [
    more > 0 ? `${more} ${more === 1 ? 'criterion counts' : 'criteria count'} more` : '',
    out > 0 ? `${out} ${out === 1 ? 'does' : 'do'} not count` : '',
  ]
    .filter((part) => part !== '')
    .join(', ');
}
