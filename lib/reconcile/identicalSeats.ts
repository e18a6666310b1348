import { regularisedBeta } from '#lib/stats/regularisedBeta';
import type { Panel } from './panel';

/** Two seats that gave the same score in more cells than two seats of this panel do by themselves. */
export type IdenticalSeats = {
  readonly seats: readonly [string, string];
  /** Cells both scored, and in how many of them they gave the same. */
  readonly cells: number;
  readonly alike: number;
  /**
   * The share to be expected: that of each of the two with all other seats, each pair's constant difference in level allowed for, or, if more, what the two would
   * give alike by using the same few scores.
   */
  readonly expected: number;
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
  return pairs.flatMap(([one, other]): IdenticalSeats[] => {
    const own = between(one, other);
    const others = seats.filter((seat) => seat !== one && seat !== other).flatMap((seat) => [between(one, seat), between(other, seat)]).filter((list) => list.length > 0);
    if (own.length < LEAST_CELLS || others.length === 0) return [];
    const cells = own.length;
    const alike = own.filter((gap) => gap === 0).length;
    const withOthers = others.reduce((sum, list) => sum + commonestShare(list), 0) / others.length;
    const expected = Math.max(withOthers, sharedHabit(panel, [one, other]));
    const unlikely = atLeast(alike / DESIGN_EFFECT, { of: cells / DESIGN_EFFECT, chance: expected }) < FALSE_ALARM / pairs.length;
    return unlikely && alike / cells - expected >= LEAST_EXCESS ? [{ seats: [one, other], cells, alike, expected }] : [];
  }).sort((a, b) => b.alike / b.cells - a.alike / a.cells);
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
    seats.forEach((one, at) => seats.slice(at + 1).forEach((other) => {
      const [left, right] = [cell.get(one), cell.get(other)];
      if (left === undefined || right === undefined) return;
      const list = differences.get(pairKey(one, other));
      if (list) list.push(left - right);
      else differences.set(pairKey(one, other), [left - right]);
    }));
  }
  return differences;
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
    const of = (seat: string) => panel.scores.filter(({ evaluator, criterion }) => evaluator === seat && criterion === key).map(({ value }) => value);
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
