import type { ScoreTable } from '#lib/stats/scoreTable';
import type { Panel, PurposeQuestion } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';

type Part = {
  readonly puppy: string;
  readonly evaluator: string;
  readonly criterion: string;
  readonly quality: number;
  readonly weight: number;
};

/**
 * Weighted mean quality of each card, a row a puppy, a column an evaluator with a card, both in alphabetical order (ST2); null for one without a score that carries weight.
 * Quality is taken from its criterion's own mean, so that a card which lacks a low-scoring criterion is not the better for it.
 * With complete cards that shifts all totals alike, which changes neither alpha nor any intraclass correlation.
 */
export function cardTotals(panel: Panel, { weights }: Pick<PurposeQuestion, 'weights'>): ScoreTable {
  const parts = weightedParts(panel, weights);
  const means = meansBy(
    parts,
    ({ criterion }) => criterion,
    () => 1,
  );
  const centred = parts.map((part) => ({ ...part, quality: part.quality - (means.get(part.criterion) ?? 0) }));
  const totals = meansBy(centred, cardKey, ({ weight }) => weight);
  const raters = new Set(parts.map(({ evaluator }) => evaluator));
  return [...panel.puppies]
    .sort()
    .map((puppy) => [...raters].sort().map((evaluator) => totals.get(cardKey({ puppy, evaluator })) ?? null));
}

const cardKey = ({ puppy, evaluator }: Pick<Part, 'puppy' | 'evaluator'>): string => JSON.stringify([puppy, evaluator]);

function weightedParts(panel: Panel, weights: Readonly<Record<string, number>>): Part[] {
  const criteria = new Map(panel.criteria.map((criterion) => [criterion.key, criterion]));
  // In a fixed order, so that the last digit of a sum does not depend on the order of the rows (ST2).
  const key = ({ puppy, evaluator, criterion }: Omit<Part, 'quality' | 'weight'>) =>
    JSON.stringify([puppy, evaluator, criterion]);
  const scores = [...panel.scores].sort((a, b) => (key(a) < key(b) ? -1 : 1));
  return scores.flatMap(({ value, ...place }) => {
    const weight = Object.hasOwn(weights, place.criterion) ? (weights[place.criterion] ?? 0) : 0;
    const quality = scoreQuality(panel, value, criteria.get(place.criterion));
    return weight > 0 ? [{ ...place, quality, weight }] : [];
  });
}

function meansBy(
  parts: readonly Part[],
  key: (part: Part) => string,
  weightOf: (part: Part) => number,
): Map<string, number> {
  const sums = new Map<string, { quality: number; weight: number }>();
  for (const part of parts) {
    const sum = sums.get(key(part)) ?? { quality: 0, weight: 0 };
    const weight = weightOf(part);
    sums.set(key(part), { quality: sum.quality + weight * part.quality, weight: sum.weight + weight });
  }
  return new Map([...sums].map(([name, { quality, weight }]) => [name, quality / weight]));
}
