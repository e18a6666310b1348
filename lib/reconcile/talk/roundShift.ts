import { meanInterval, type Figure } from '../seats/leastSquaresInterval';
import type { Panel, PanelScore } from '../panel/panel';

/** What a second round did to one cell, over the seats that scored it both times. */
type CellShift = {
  readonly puppy: string;
  readonly criterion: string;
  /** Seats that scored it both times. */
  readonly seats: number;
  /** Largest minus smallest of their scores, in points (degrees where two-sided); null below two seats. */
  readonly before: number | null;
  readonly after: number | null;
  /**
   * oneVoice: the range fell because every other seat moved at least half the way to one seat that stayed at an end of it.
   * together: the range fell in any other way; meeting at a score between is what a talk is for.
   */
  readonly kind: 'together' | 'oneVoice' | 'apart' | 'unchanged' | 'tooFew';
  /** The seat that stayed, where one voice won. */
  readonly voice: string | null;
};

export type RoundShift = {
  readonly cells: readonly CellShift[];
  /** Of the way to each seat's first score, the share the others went in a cell, on average; negative when they went away. 90% interval over cells. */
  readonly pulls: readonly { readonly evaluator: string; readonly pull: Figure }[];
};

const LEAST_CELLS = 5;

type Moved = { readonly evaluator: string; readonly from: number; readonly to: number };

/** Whether agreement rose in a second round because views moved towards each other, or because one voice won. */
export function roundShift(
  cells: readonly { readonly puppy: string; readonly criterion: string }[],
  first: Panel,
  second: readonly PanelScore[],
): RoundShift {
  const moves = cells.map(({ puppy, criterion }) => ({
    puppy,
    criterion,
    moved: movesOf({ puppy, criterion }, first.scores, second),
  }));
  return {
    cells: moves.map(({ puppy, criterion, moved }) => ({ puppy, criterion, ...shiftOf(moved) })),
    pulls: first.evaluators.map((evaluator) => {
      const shares = moves.flatMap(({ moved }) => wayTo(moved, evaluator) ?? []);
      return {
        evaluator,
        pull:
          shares.length < LEAST_CELLS ? { undefined: 'too few data' } : meanInterval(shares, Number.NEGATIVE_INFINITY),
      };
    }),
  };
}

function movesOf(
  cell: { readonly puppy: string; readonly criterion: string },
  first: readonly PanelScore[],
  second: readonly PanelScore[],
): Moved[] {
  const here = (score: PanelScore) => score.puppy === cell.puppy && score.criterion === cell.criterion;
  return second.filter(here).flatMap(({ evaluator, value }) => {
    const before = first.find((score) => here(score) && score.evaluator === evaluator);
    return before ? [{ evaluator, from: before.value, to: value }] : [];
  });
}

function shiftOf(moved: readonly Moved[]): Omit<CellShift, 'puppy' | 'criterion'> {
  if (moved.length < 2) return { seats: moved.length, before: null, after: null, kind: 'tooFew', voice: null };
  const [before, after] = [rangeOf(moved.map(({ from }) => from)), rangeOf(moved.map(({ to }) => to))];
  const base = { seats: moved.length, before, after };
  if (after > before) return { ...base, kind: 'apart', voice: null };
  if (after === before) return { ...base, kind: 'unchanged', voice: null };
  const ends = [Math.min(...moved.map(({ from }) => from)), Math.max(...moved.map(({ from }) => from))];
  const voices = moved.filter((one) => one.from === one.to && ends.includes(one.from) && othersGaveWay(moved, one));
  const voice = voices.length === 1 ? (voices[0]?.evaluator ?? null) : null;
  return { ...base, kind: voice === null ? 'together' : 'oneVoice', voice };
}

/** Every other seat that differed came at least half the way. */
function othersGaveWay(moved: readonly Moved[], voice: Moved): boolean {
  const differed = moved.filter((one) => one.evaluator !== voice.evaluator && one.from !== voice.from);
  return (
    differed.length > 0 && differed.every((one) => 2 * Math.abs(one.to - voice.from) <= Math.abs(one.from - voice.from))
  );
}

/** Share of the distance to this seat's first score that the others gave up; null where none differed. */
function wayTo(moved: readonly Moved[], evaluator: string): number | null {
  const own = moved.find((one) => one.evaluator === evaluator);
  if (!own) return null;
  const others = moved.filter((one) => one.evaluator !== evaluator);
  const distance = (point: 'from' | 'to') => others.reduce((sum, one) => sum + Math.abs(one[point] - own.from), 0);
  return distance('from') > 0 ? 1 - distance('to') / distance('from') : null;
}

function rangeOf(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
