import type { Sheet } from '#lib/sheet/sheet';
import type { InventedCards } from './inventCards';

export type LookPreference = { readonly choice: 'first' | 'second' | 'tie'; readonly criterion: string | null };
type Pair = { readonly first: string; readonly second: string };

/** How a scripted seat answers a second look: by its own cards of the two, naming the criterion that parts them most. */
export function lookPreference(cards: InventedCards, sheet: Sheet, { first, second }: Pair): LookPreference {
  const ours = qualities(cards, sheet, first);
  const others = qualities(cards, sheet, second);
  const gaps = [...ours].flatMap(([criterion, quality]) => {
    const other = others.get(criterion);
    return other === undefined ? [] : [{ criterion, gap: quality - other }];
  });
  const total = gaps.reduce((sum, { gap }) => sum + gap, 0);
  if (Math.abs(total) < 1) return { choice: 'tie', criterion: null };
  const deciding = gaps.toSorted((a, b) => Math.sign(total) * (b.gap - a.gap))[0];
  return { choice: total > 0 ? 'first' : 'second', criterion: deciding?.criterion ?? null };
}

/** In points, more is better: a two-sided score counts by how near it lies to "as asked". */
function qualities(cards: InventedCards, { criteria }: Sheet, name: string): ReadonlyMap<string, number> {
  const twoSided = new Set(criteria.filter((criterion) => criterion.twoSided).map(({ key }) => key));
  return new Map(
    (cards.get(name) ?? []).flatMap((body) => {
      if (body.kind !== 'score' || body.value === null) return [];
      return [[body.criterion, twoSided.has(body.criterion) ? -2 * Math.abs(body.value) : body.value] as const];
    }),
  );
}
