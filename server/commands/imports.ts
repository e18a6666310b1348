import { listOwnAnswers } from '#db/queries/entries';
import { puppiesSeen } from '#lib/blind/evaluationView';
import type { Answer, Entry } from '#lib/contract/entry';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { importLimits } from '#lib/contract/fileLimits';
import type { ImportPreview, RowFate } from '#lib/contract/importView';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, RoundFacts, SeatFacts, Viewer } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/seats';
import type { Criterion } from '#lib/sheet/criterion';
import { parseScores, type ScoreRow } from '../csv/parseScores';
import { scoreTemplate, unescaped } from '../csv/scoreTemplate';
import type { Runtime } from '../runtime';
import { type Asker, change, ownSeat } from '../write/writeEvaluation';
import { takeEntries } from './cards';

/** Takes typed scores into the seat's own cards: every row or none. */
export function importScores(
  ctx: Asker,
  { evaluationId, text }: { readonly evaluationId: string; readonly text: string },
): ImportPreview {
  const { runtime, device } = ctx;
  return change({ ctx, id: evaluationId }, (write) => {
    const { preview, entries } = planImport(runtime, {
      facts: write.facts,
      viewer: write.viewer,
      seat: ownSeat(write),
      deviceId: device.id,
      text,
    });
    if (!preview.sound) throw new DomainError('bad-input', { rows: preview.rows.length });
    takeEntries(
      ctx,
      write,
      entries.map((entry) => ({ ...entry, id: runtime.random.id(), madeAt: write.at })),
    );
    return preview;
  });
}

type Typist = { readonly viewer: Viewer; readonly seat: SeatFacts };
type ImportText = Typist & { readonly facts: EvaluationFacts; readonly deviceId: string; readonly text: string };
type ImportPlan = { readonly preview: ImportPreview; readonly entries: readonly Omit<Entry, 'id' | 'madeAt'>[] };

const passing: ReadonlySet<RowFate> = new Set(['new', 'replaces', 'same', 'blank']);

/** The round that a seat may bring typed scores into; throws not-allowed or wrong-phase. */
function typedRound({ round }: EvaluationFacts, seat: SeatFacts): RoundFacts {
  if (seat.kind === 'none') throw new DomainError('not-allowed');
  if (round?.state !== 'open' || round.cells !== null || seat.lockedAt !== null) throw new DomainError('wrong-phase');
  return round;
}

/** Every cell that this seat could bring in, blank: puppies by the names it sees, nothing that takes hands it has not. */
export function blankScores(facts: EvaluationFacts, { viewer, seat }: Typist): string {
  const shown = new Set(typedRound(facts, seat).showings.map((showing) => showing.puppyId));
  return scoreTemplate({
    puppies: puppiesSeen(facts, { viewer, seat })
      .filter((puppy) => shown.has(puppy.id) && !puppy.withdrawn)
      .map((puppy) => puppy.name),
    evaluator: seat.label,
    criteria: facts.sheet.criteria.filter((one) => !one.handsOnly || seat.kind === 'hands').map((one) => one.key),
  });
}

/**
 * What a file of typed scores would do to the seat's own cards: every row with its fate, and the entries to make.
 * A fault in the file itself is bad-input with its line and column and how many more there are. Writes nothing.
 */
export function planImport(runtime: Runtime, { facts, viewer, seat, deviceId, text }: ImportText): ImportPlan {
  const round = typedRound(facts, seat);
  const parsedRows = readRows(facts, text);
  const standing = new Map(
    listOwnAnswers(runtime.db, {
      seatId: seat.id,
      roundId: round.id,
      deviceId: readsOnly(round.state, seat, deviceId),
    }).map((answer) => [`${answer.subject} ${answer.field}`, answer]),
  );
  const ground: Ground = {
    seat,
    standing,
    puppies: named(puppiesSeen(facts, { viewer, seat }), (puppy) => [puppy.name]),
    showings: new Map(round.showings.filter((one) => !one.repeat).map((one) => [one.puppyId, one.id])),
    // By its key before any other's name.
    criteria: named(
      facts.sheet.criteria,
      (one) => [one.name],
      named(facts.sheet.criteria, (one) => [one.key]),
    ),
    filled: new Set(),
  };
  const planned = parsedRows.map((row) => planRow(ground, row));
  const rows = planned.map(({ row, fate }) => ({
    line: row.line,
    puppy: row.puppy,
    evaluator: row.evaluator,
    criterion: row.criterion,
    score: row.score,
    fate,
  }));
  const sound = rows.every((row) => passing.has(row.fate));
  return { preview: { rows, sound }, entries: planned.flatMap(({ entry }) => entry ?? []) };
}

function readRows({ sheet: { criteria, scale } }: EvaluationFacts, text: string): readonly ScoreRow[] {
  const fault = (line: number, message: string) => new DomainError('bad-input', { line, column: 1, message, more: 0 });
  const bytes = Buffer.byteLength(text);
  if (bytes > importLimits.bytes) throw fault(1, `The file has ${bytes} bytes; the limit is ${importLimits.bytes}.`);
  const twoSided = new Set(criteria.filter((one) => one.twoSided).flatMap(({ key, name }) => [key, name]));
  const parsed = parseScores(text, { scale, twoSided, maxCharacters: importLimits.bytes });
  if ('error' in parsed) throw new DomainError('bad-input', { ...parsed.error });
  const { rows } = parsed;
  if (rows.length > importLimits.rows)
    throw fault(
      rows[importLimits.rows]?.line ?? 1,
      `The file has ${rows.length} rows; the limit is ${importLimits.rows}.`,
    );
  return rows;
}

type Ground = {
  readonly seat: SeatFacts;
  readonly standing: ReadonlyMap<string, Answer>;
  readonly puppies: ReadonlyMap<string, PuppyFace>;
  /** The first showing of each puppy. */
  readonly showings: ReadonlyMap<string, string>;
  readonly criteria: ReadonlyMap<string, Criterion>;
  /** Cells that a line above is about: a name may be written in more than one way. */
  readonly filled: Set<string>;
};
type Planned = { readonly row: ScoreRow; readonly fate: RowFate; readonly entry: ImportPlan['entries'][number] | null };

const alike = (name: string): string => name.toLowerCase();

/** By name, the first of a name; after those that are `taken`. */
function named<T>(
  things: readonly T[],
  namesOf: (one: T) => readonly string[],
  taken: ReadonlyMap<string, T> = new Map(),
): ReadonlyMap<string, T> {
  const all = new Map(taken);
  for (const one of things) for (const name of namesOf(one).map(alike)) if (!all.has(name)) all.set(name, one);
  return all;
}

/** As it was typed, or as a spreadsheet was kept from taking it for a formula. */
const lookUp = <T>(things: ReadonlyMap<string, T>, name: string): T | undefined =>
  things.get(alike(name)) ?? things.get(alike(unescaped(name)));

function planRow({ seat, standing, puppies, showings, criteria, filled }: Ground, row: ScoreRow): Planned {
  const stop = (fate: RowFate): Planned => ({ row, fate, entry: null });
  if (![row.evaluator, unescaped(row.evaluator)].map(alike).includes(alike(seat.label))) return stop('another-seat');
  const puppy = lookUp(puppies, row.puppy);
  const showing = puppy && showings.get(puppy.id);
  if (!puppy || showing === undefined) return stop('unknown-puppy');
  if (puppy.withdrawn) return stop('withdrawn');
  const criterion = lookUp(criteria, row.criterion);
  if (!criterion) return stop('unknown-criterion');
  const cell = `${showing} score:${criterion.key}`;
  if (filled.has(cell)) return stop('twice');
  filled.add(cell);
  if (criterion.handsOnly && seat.kind !== 'hands') return stop('hands-only');
  if (row.score === null) return stop('blank');
  if (!Number.isInteger(row.score)) return stop('off-step');
  const answer = standing.get(cell);
  const before = answer?.body.kind === 'score' ? answer.body.value : null;
  if (before === row.score) return stop('same');
  return {
    row,
    fate: before === null ? 'new' : 'replaces',
    entry: {
      subject: showing,
      counter: (answer?.counter ?? 0) + 1,
      body: { kind: 'score', criterion: criterion.key, value: row.score, cannotJudge: false },
    },
  };
}
