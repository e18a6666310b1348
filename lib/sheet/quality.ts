export type QualityRule = { readonly twoSided: boolean; readonly low: number; readonly high: number };

/**
 * How good a score is, in points of the sheet's scale.
 * One-sided: the score itself. Two-sided, a signed degree d in -3..+3: high - (high - low) / 3 * |d|,
 * so that as asked (0) is the top and marked either way (3) the bottom.
 */
export function quality(score: number, { twoSided, low, high }: QualityRule): number {
  return twoSided ? high - ((high - low) / 3) * Math.abs(score) : score;
}
