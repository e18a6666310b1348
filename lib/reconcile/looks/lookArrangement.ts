import type { SeededRandom } from '#lib/stats/seededRandom';

/** Two puppies by key. */
export type LookPair = { readonly first: string; readonly second: string };

/** A pair that a seat has already been shown. */
export type ShownLook = LookPair & {
  /** Who saw it so: null at the table, where all see the same. */
  readonly evaluator: string | null;
  readonly firstOnLeft: boolean;
};

export type Arrangement = {
  /** True when the pair was looked at before. */
  readonly repeat: boolean;
  /** Seen from the evaluators, at the table. */
  readonly firstOnLeft: boolean;
  /** From photographs: each seat's own side; empty at the table. */
  readonly firstOnLeftBySeat: Readonly<Record<string, boolean>>;
};

export type ArrangementQuestion = {
  readonly medium: 'table' | 'photographs';
  /** Oldest first. */
  readonly shown: readonly ShownLook[];
  /** By pair, the seats that answer it. */
  readonly seats: readonly (readonly string[])[];
};

/**
 * Who stands on which side. A pair seen before is swapped, for that seat or for the table. A new one puts on the left whichever of
 * the two has stood there less often than on the right; where they are even a seeded draw decides, and from photographs seats that have no such
 * reason are split in halves.
 */
export function lookArrangement(
  pairs: readonly LookPair[],
  question: ArrangementQuestion,
  random: SeededRandom,
): Arrangement[] {
  const shown = [...question.shown];
  return pairs.map((pair, at) => {
    const repeat = shown.some((look) => samePair(look, pair));
    const place = (evaluator: string | null, coin: boolean) => {
      const firstOnLeft = sideOf(
        pair,
        shown.filter((look) => look.evaluator === evaluator),
        coin,
      );
      shown.push({ ...pair, evaluator, firstOnLeft });
      return firstOnLeft;
    };
    if (question.medium === 'table')
      return { repeat, firstOnLeft: place(null, random.uniform() < 0.5), firstOnLeftBySeat: {} };
    const seats = question.seats[at] ?? [];
    const coins = halves(seats.length, random);
    const firstOnLeftBySeat = Object.fromEntries(seats.map((seat, index) => [seat, place(seat, coins[index] ?? true)]));
    return { repeat, firstOnLeft: true, firstOnLeftBySeat };
  });
}

function sideOf({ first, second }: LookPair, shown: readonly ShownLook[], coin: boolean): boolean {
  const before = shown.findLast((look) => samePair(look, { first, second }));
  if (before) return (before.first === first) !== before.firstOnLeft;
  const lean = leftLean(first, shown) - leftLean(second, shown);
  return lean === 0 ? coin : lean < 0;
}

/** Times on the left less times on the right. */
function leftLean(puppy: string, shown: readonly ShownLook[]): number {
  return shown.reduce((sum, look) => {
    if (look.first !== puppy && look.second !== puppy) return sum;
    return sum + ((look.first === puppy) === look.firstOnLeft ? 1 : -1);
  }, 0);
}

function samePair(a: LookPair, b: LookPair): boolean {
  return (a.first === b.first && a.second === b.second) || (a.first === b.second && a.second === b.first);
}

/** As many true as false, one more of either when odd, in random order. */
function halves(count: number, random: SeededRandom): boolean[] {
  const start = random.uniform() < 0.5;
  const coins = Array.from({ length: count }, (_, at) => (at % 2 === 0) === start);
  for (let at = count - 1; at > 0; at -= 1) {
    const other = random.below(at + 1);
    [coins[at], coins[other]] = [coins[other] ?? true, coins[at] ?? true];
  }
  return coins;
}
