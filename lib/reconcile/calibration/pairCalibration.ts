/** One stated chance and what turned out. */
export type Stated = { readonly chance: number; readonly right: boolean };

export type Calibration = {
  /** Share of the statements above one half that were right; exact halves count half. */
  readonly accuracy: number;
  readonly brier: number;
  /** Mean absolute gap between stated and observed over five bins from 0.5 to 1, weighted by their numbers. */
  readonly error: number;
  readonly bins: readonly { readonly stated: number; readonly observed: number; readonly count: number }[];
};

const BINS = 5;

/** Each statement is turned to its favoured side first. */
export function pairCalibration(stated: readonly Stated[]): Calibration {
  const sums = Array.from({ length: BINS }, () => ({ stated: 0, right: 0, count: 0 }));
  let [brier, right] = [0, 0];
  for (const { chance, right: outcome } of stated) {
    const favoured = chance >= 0.5 ? { chance, hit: outcome ? 1 : 0 } : { chance: 1 - chance, hit: outcome ? 0 : 1 };
    brier += (favoured.chance - favoured.hit) ** 2;
    right += chance === 0.5 ? 0.5 : favoured.hit;
    const bin = sums[Math.min(BINS - 1, Math.floor((favoured.chance - 0.5) * 2 * BINS))];
    if (!bin) continue;
    bin.stated += favoured.chance;
    bin.right += favoured.hit;
    bin.count += 1;
  }
  const filled = sums.filter(({ count }) => count > 0);
  const bins = filled.map((bin) => ({
    stated: bin.stated / bin.count,
    observed: bin.right / bin.count,
    count: bin.count,
  }));
  const error =
    bins.reduce((sum, bin) => sum + bin.count * Math.abs(bin.stated - bin.observed), 0) / Math.max(1, stated.length);
  return { accuracy: right / stated.length, brier: brier / stated.length, error, bins };
}
