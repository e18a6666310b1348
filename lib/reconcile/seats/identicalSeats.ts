import { regularisedBeta } from '#lib/stats/regularisedBeta';
import type { Panel } from '../panel/panel';

/** Two seats that gave the same score in more cells than two seats of this panel do by themselves. */
export type IdenticalSeats = {
  readonly seats: readonly [string, string];
  /** Cells both scored, and in how many of them they gave the same. */
  readonly cells: number;
  readonly alike: number;
  /**
   * The share to be expected: the middle one of the shares of each of the two with all other seats, each pair's constant difference in level allowed for, or, if more, what the two would
   * give alike by using the same few scores.
   */
  readonly expected: number;
  /**
   * Whether merit allows for it: so for the pair most alike, and those told alike with a seat of it, up to half of all seats (rounded up). What more there may be is
   * told and not modelled.
   */
  readonly modelled: boolean;
};

/** Cells of one puppy hang together: a hundred of them tell as much as so many fewer. */
const DESIGN_EFFECT = 1.5;
/** Chance that a panel whose seats score by themselves has any such pair. */
const FALSE_ALARM = 0.01;
const LEAST_EXCESS = 0.12;
const LEAST_CELLS = 20;

/**
 * Pairs of seats that may have heard each other, the most alike first. Below three seats there is nobody to tell by. The chance of so many like cells is
 * binomial (Clopper and Pearson 1934, by the beta distribution), over all pairs together (Bonferroni). That two seats agree proves nothing: two may see alike.
 * Worked example: 96 cells, 80 alike where 38 in 100 are expected: a chance below one in 10¹⁰.
 */
export function identicalSeats(panel: Panel): IdenticalSeats[] {
  const seats = panel.evaluators.filter((seat) => panel.scores.some(({ evaluator }) => evaluator === seat));
  if (seats.length < 3) return [];
  const differences = differencesOf(panel, seats);
  const between = (one: string, other: string) => differences.get(pairKey(one, other)) ?? [];
  const pairs = seats.flatMap((one, at) => seats.slice(at + 1).map((other) => [one, other] as const));
  const found = pairs
    .flatMap(([one, other]): Omit<IdenticalSeats, 'modelled'>[] => {
      const own = between(one, other);
      const others = seats
        .filter((seat) => seat !== one && seat !== other)
        .flatMap((seat) => [between(one, seat), between(other, seat)])
        .filter((list) => list.length > 0);
      if (own.length < LEAST_CELLS || others.length === 0) return [];
      const cells = own.length;
      const alike = own.filter((gap) => gap === 0).length;
      const withOthers = median(others.map(commonestShare));
      if (alike / cells - withOthers < LEAST_EXCESS) return [];
      const expected = Math.max(withOthers, sharedHabit(panel, [one, other]));
      const unlikely =
        atLeast(alike / DESIGN_EFFECT, { of: cells / DESIGN_EFFECT, chance: expected }) < FALSE_ALARM / pairs.length;
      return unlikely && alike / cells - expected >= LEAST_EXCESS
        ? [{ seats: [one, other], cells, alike, expected }]
        : [];
    })
    .sort((a, b) => b.alike / b.cells - a.alike / a.cells);
  const tied = grownFrom(
    found.map((pair) => pair.seats),
    Math.ceil(seats.length / 2),
  );
  return found.map((pair) => ({ ...pair, modelled: pair.seats.every((seat) => tied.has(seat)) }));
}

/**
 * By evaluator: 1 for the seat that has most in common with the others it is told alike with, who may as well be the one that repeats; for those others the share of their
 * cells that such repeating would explain, (alike − expected) / (1 − expected); 0 for all who score by themselves.
 */
export function repeatedShares(panel: Panel): number[] {
  const pairs = identicalSeats(panel)
    .filter(({ modelled }) => modelled)
    .map((pair) => ({ ...pair, excess: (pair.alike / pair.cells - pair.expected) / (1 - pair.expected) }));
  const inCommon = new Map<string, number>();
  for (const { seats, excess } of pairs)
    for (const seat of seats) inCommon.set(seat, (inCommon.get(seat) ?? 0) + excess);
  const [[hub] = []] = [...inCommon].sort(([, one], [, other]) => other - one);
  return panel.evaluators.map((seat) => {
    if (seat === hub) return 1;
    const own = pairs.filter(({ seats }) => seats.includes(seat));
    const withHub = own.find(({ seats }) => seats.some((one) => one === hub));
    return withHub?.excess ?? Math.max(0, ...own.map(({ excess }) => excess));
  });
}

/** The first pair and whoever stands in a pair with one of them, in the order of the pairs, `most` in all. */
function grownFrom(pairs: readonly (readonly [string, string])[], most: number): ReadonlySet<string> {
  const tied = new Set<string>(pairs[0]);
  for (let before = -1; before < tied.size; ) {
    before = tied.size;
    const next = pairs.find((seats) => seats.some((seat) => tied.has(seat)) && !seats.every((seat) => tied.has(seat)));
    if (tied.size < most) next?.forEach((seat) => tied.add(seat));
  }
  return tied;
}

const pairKey = (one: string, other: string): string => JSON.stringify([one, other].sort());

/** Score of the one less that of the other, for every pair of seats, over the cells both scored. */
function differencesOf(panel: Panel, seats: readonly string[]): Map<string, number[]> {
  const cells = new Map<string, Map<string, number>>();
  for (const { puppy, criterion, evaluator, value } of panel.scores) {
    const key = JSON.stringify([puppy, criterion]);
    const cell = cells.get(key) ?? new Map<string, number>();
    cells.set(key, cell.set(evaluator, value));
  }
  const differences = new Map<string, number[]>();
  for (const cell of cells.values()) {
    seats.forEach((one, at) =>
      seats.slice(at + 1).forEach((other) => {
        const [left, right] = [cell.get(one), cell.get(other)];
        if (left === undefined || right === undefined) return;
        const list = differences.get(pairKey(one, other));
        if (list) list.push(left - right);
        else differences.set(pairKey(one, other), [left - right]);
      }),
    );
  }
  return differences;
}

/** What one seat more that is alike does not move. */
function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return ((sorted[Math.ceil(sorted.length / 2) - 1] ?? 0) + (sorted[Math.floor(sorted.length / 2)] ?? 0)) / 2;
}

/** Share of the commonest difference: what two seats would give alike if their levels were. */
function commonestShare(differences: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const difference of differences) counts.set(difference, (counts.get(difference) ?? 0) + 1);
  return Math.max(...counts.values()) / differences.length;
}

/** Share of like scores of two seats who draw theirs, criterion by criterion, as often as they gave them. */
function sharedHabit(panel: Panel, [one, other]: readonly [string, string]): number {
  let [alike, all] = [0, 0];
  for (const { key } of panel.criteria) {
    const of = (seat: string) =>
      panel.scores
        .filter(({ evaluator, criterion }) => evaluator === seat && criterion === key)
        .map(({ value }) => value);
    const [left, right] = [of(one), of(other)];
    all += left.length * right.length;
    alike += left.reduce((sum, value) => sum + right.filter((theirs) => theirs === value).length, 0);
  }
  return all > 0 ? alike / all : 0;
}

/** Chance of `count` or more of `of` trials. */
function atLeast(count: number, { of, chance }: { readonly of: number; readonly chance: number }): number {
  if (count <= 0) return 1;
  return regularisedBeta({ shape1: count, shape2: of - count + 1, x: chance, complement: 1 - chance }).lower;
}
