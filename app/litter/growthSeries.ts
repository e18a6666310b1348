import { ageInDays } from '#lib/evaluation/ageInDays';
import type { LitterView, PuppyView } from '#lib/contract/litter';

export type GrowthSeries = {
  readonly puppy: PuppyView;
  /** By age in days, ascending. */
  readonly points: readonly { readonly age: number; readonly grams: number }[];
};

/** What the picture and its table draw: the weighed puppies, their weights by age. */
export function growthSeries({ puppies, whelpedOn }: Pick<LitterView, 'puppies' | 'whelpedOn'>): GrowthSeries[] {
  return puppies.flatMap((puppy) => {
    const points = puppy.weights.map(({ weighedOn, grams }) => ({ age: ageInDays(whelpedOn, weighedOn), grams })).sort((a, b) => a.age - b.age);
    return points.length === 0 ? [] : [{ puppy, points }];
  });
}
