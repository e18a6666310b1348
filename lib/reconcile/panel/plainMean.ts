import { degreeCost } from './degreeCost';
import type { Panel, PanelCriterion, PurposeQuestion } from './panel';

/** Quality of one score on the sheet's scale: the score itself, or the top less what a signed degree costs. */
export function scoreQuality(
  { scale: { low, high } }: Panel,
  value: number,
  criterion: Pick<PanelCriterion, 'twoSided' | 'cost'> | undefined,
): number {
  return criterion?.twoSided ? high - ((high - low) / 6) * degreeCost(value, criterion.cost) : value;
}

/** Weighted average of each score's own quality over the cells judged, by puppy; null when no judged cell carries weight. */
export function plainMeans(panel: Panel, purpose: PurposeQuestion): ReadonlyMap<string, number | null> {
  const criteria = new Map(panel.criteria.map((criterion) => [criterion.key, criterion]));
  const sums = new Map<string, { quality: number; weight: number }>();
  for (const score of panel.scores) {
    const weight = Object.hasOwn(purpose.weights, score.criterion) ? (purpose.weights[score.criterion] ?? 0) : 0;
    if (!(weight > 0)) continue;
    const sum = sums.get(score.puppy) ?? { quality: 0, weight: 0 };
    const quality = scoreQuality(panel, score.value, criteria.get(score.criterion));
    sums.set(score.puppy, { quality: sum.quality + weight * quality, weight: sum.weight + weight });
  }
  return new Map(
    panel.puppies.map((puppy) => {
      const sum = sums.get(puppy);
      return [puppy, sum ? sum.quality / sum.weight : null];
    }),
  );
}

/** The same, minus the mean over the puppies that have one. */
export function plainContrasts(panel: Panel, purpose: PurposeQuestion): ReadonlyMap<string, number | null> {
  const means = plainMeans(panel, purpose);
  const judged = [...means.values()].filter((value) => value !== null);
  const litter = judged.reduce((sum, value) => sum + value, 0) / Math.max(1, judged.length);
  return new Map([...means].map(([puppy, value]) => [puppy, value === null ? null : value - litter]));
}
