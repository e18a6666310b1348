import { invariant } from '#lib/invariant';
import { seedFromNumbers } from '#lib/stats/seededRandom';
import type { Panel, PanelCriterion } from './panel';

/** One judged cell in canonical positions; `value` is as entered (a mean, should a cell come twice). */
export type CanonicalCell = {
  readonly puppy: number;
  readonly seat: number;
  readonly criterion: number;
  readonly value: number;
};

/** The panel in an order that depends on its scores alone, so that rows and names may come in any order (ST2). */
export type CanonicalPanel = {
  readonly puppies: readonly string[];
  /** Evaluators with at least one score: a seat without any changes nothing. */
  readonly seats: readonly string[];
  readonly criteria: readonly PanelCriterion[];
  readonly cells: readonly CanonicalCell[];
  readonly seed: number;
};

type Colours = {
  readonly puppy: Map<string, number>;
  readonly seat: Map<string, number>;
  readonly criterion: Map<string, number>;
};

const ROUNDS = 3;

/**
 * Orders puppies, seats and criteria by colour refinement (Weisfeiler and Leman 1968): each gets a number made from its scores and
 * the numbers of what they touch, three times over. Sums of hashes do not depend on the order of the rows; only
 * what is alike in every score falls back on its key.
 * @param kept criteria that must stay although nobody judged them (they carry weight); others without scores are dropped.
 */
export function canonicalPanel(panel: Panel, kept: ReadonlySet<string>): CanonicalPanel {
  const scores = mergeRepeats(panel);
  const colours = refine(panel, scores);
  const judgedBy = new Set(scores.map((score) => score.evaluator));
  const judgedOn = new Set(scores.map((score) => score.criterion));
  const puppies = ordered(panel.puppies, colours.puppy);
  const seats = ordered(
    panel.evaluators.filter((key) => judgedBy.has(key)),
    colours.seat,
  );
  const named = new Map(panel.criteria.map((criterion) => [criterion.key, criterion]));
  const criteria = ordered(
    [...named.keys()].filter((key) => judgedOn.has(key) || kept.has(key)),
    colours.criterion,
  )
    .map((key) => named.get(key))
    .filter((criterion) => criterion !== undefined);
  const cells = placed(scores, { puppies, seats, criteria: criteria.map((criterion) => criterion.key) });
  const all = [panel.scale.low, panel.scale.high, puppies.length, seats.length, criteria.length];
  for (const cell of cells) all.push(cell.puppy, cell.seat, cell.criterion, cell.value);
  return { puppies, seats, criteria, cells, seed: seedFromNumbers(all) };
}

function mergeRepeats(panel: Panel): Panel['scores'] {
  const byCell = new Map<string, { puppy: string; evaluator: string; criterion: string; values: number[] }>();
  for (const { value, ...cell } of panel.scores) {
    const key = JSON.stringify([cell.puppy, cell.evaluator, cell.criterion]);
    const known = byCell.get(key);
    if (known) known.values.push(value);
    else byCell.set(key, { ...cell, values: [value] });
  }
  return [...byCell.values()].map(({ values, ...cell }) => {
    const sorted = values.sort((a, b) => a - b);
    return { ...cell, value: sorted.reduce((sum, value) => sum + value, 0) / sorted.length };
  });
}

function refine(panel: Panel, scores: Panel['scores']): Colours {
  let colours: Colours = {
    puppy: new Map(panel.puppies.map((key) => [key, 1])),
    seat: new Map(panel.evaluators.map((key) => [key, 1])),
    criterion: new Map(panel.criteria.map(({ key, twoSided }) => [key, twoSided ? 2 : 1])),
  };
  for (let round = 0; round < ROUNDS; round += 1) {
    const next: Colours = {
      puppy: new Map(colours.puppy),
      seat: new Map(colours.seat),
      criterion: new Map(colours.criterion),
    };
    for (const score of scores) {
      const cell = seedFromNumbers([
        colourOf(colours.puppy, score.puppy),
        colourOf(colours.seat, score.evaluator),
        colourOf(colours.criterion, score.criterion),
        score.value,
      ]);
      add(next.puppy, score.puppy, cell);
      add(next.seat, score.evaluator, cell);
      add(next.criterion, score.criterion, cell);
    }
    colours = next;
  }
  return colours;
}

function colourOf(colours: ReadonlyMap<string, number>, key: string): number {
  const colour = colours.get(key);
  invariant(colour !== undefined, `a score names ${key}, which the panel does not have`);
  return colour;
}

function add(colours: Map<string, number>, key: string, amount: number): void {
  colours.set(key, (colourOf(colours, key) + amount) >>> 0);
}

function ordered(keys: readonly string[], colours: ReadonlyMap<string, number>): string[] {
  return [...new Set(keys)].sort((a, b) => colourOf(colours, a) - colourOf(colours, b) || (a < b ? -1 : 1));
}

function placed(
  scores: Panel['scores'],
  keys: { puppies: string[]; seats: string[]; criteria: string[] },
): CanonicalCell[] {
  const positions = (list: string[]) => new Map(list.map((key, index) => [key, index]));
  const [puppies, seats, criteria] = [positions(keys.puppies), positions(keys.seats), positions(keys.criteria)];
  return scores
    .map((score) => ({
      puppy: colourOf(puppies, score.puppy),
      seat: colourOf(seats, score.evaluator),
      criterion: colourOf(criteria, score.criterion),
      value: score.value,
    }))
    .sort((a, b) => a.criterion - b.criterion || a.puppy - b.puppy || a.seat - b.seat);
}
