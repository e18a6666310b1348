/** What a degree of 1, 2 and 3 to either side of what is asked costs, in sixths of the scale (units u). */
export type DegreeCosts = readonly [number, number, number];

/** As far from what is asked as from the top to the bottom of the scale, in even steps. */
const straightCosts: DegreeCosts = [2, 4, 6];

/**
 * Cost of a signed degree, in sixths of the scale: straight between the whole degrees and, beyond three, as between two and three.
 * Worked example: costs 1, 3, 6 make 0.5 cost 0.5, −2 cost 3 and 2.5 cost 4.5.
 */
export function degreeCost(degree: number, costs: DegreeCosts = straightCosts): number {
  const size = Math.abs(degree);
  const [one, two, three] = costs;
  if (size <= 1) return size * one;
  if (size <= 2) return one + (size - 1) * (two - one);
  return two + (size - 2) * (three - two);
}

/** Mean square of the cost of a step from one whole degree to the next. */
export function meanSquaredStep([one, two, three]: DegreeCosts = straightCosts): number {
  return (one ** 2 + (two - one) ** 2 + (three - two) ** 2) / 3;
}
