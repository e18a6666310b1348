import { listOwnAnswers } from '#db/queries/entries';
import type { Answer, Entry } from '#lib/contract/entry';
import type { ImportPreview, RowFate } from '#lib/contract/importView';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, RoundFacts, SeatFacts } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/seats';
import { parseScores, type ScoreRow } from '../csv/parseScores';
import type { Runtime } from '../runtime';
import { type Asker, change, ownSeat } from '../write/writeEvaluation';
import { takeEntries } from './cards';

/** Takes typed scores into the seat's own cards: every row or none. */
export function importScores(ctx: Asker, { evaluationId, text }: { readonly evaluationId: string; readonly text: string }): ImportPreview {
  const { runtime, device } = ctx;
  return change({ ctx, id: evaluationId }, (write) => {
    const { preview, entries } = planImport(runtime, { facts: write.facts, seat: ownSeat(write), deviceId: device.id, text });
    if (!preview.sound) throw new DomainError('bad-input', { rows: preview.rows.length });
    takeEntries(ctx, write, entries.map((entry) => ({ ...entry, id: runtime.random.id(), madeAt: write.at })));
    return preview;
  });
}

type ImportText = { readonly facts: EvaluationFacts; readonly seat: SeatFacts; readonly deviceId: string; readonly text: string };
type ImportPlan = { readonly preview: ImportPreview; readonly entries: readonly Omit<Entry, 'id' | 'madeAt'>[] };

const passing: ReadonlySet<RowFate> = new Set(['new', 'replaces', 'same', 'blank']);

/**
 * What a file of typed scores would do to the seat's own cards: every row with its fate, and the entries to make.
 * A fault in the file itself is bad-input with its line and column and how many more there are. Writes nothing.
 */
export function planImport(runtime: Runtime, { facts, seat, deviceId, text }: ImportText): ImportPlan {
  const { round } = facts;
  if (seat.kind === 'none') throw new DomainError('not-allowed');
  if (round?.state !== 'open' || round.cells !== null || seat.lockedAt !== null) throw new DomainError('wrong-phase');
  const { criteria, scale } = facts.sheet;
  const twoSided = new Set(criteria.filter((one) => one.twoSided).flatMap(({ key, name }) => [key, name]));
  const parsed = parseScores(text, { scale, twoSided, maxCharacters: 200_000 });
  if ('error' in parsed) throw new DomainError('bad-input', { ...parsed.error });
  const standing = new Map(listOwnAnswers(runtime.db, { seatId: seat.id, roundId: round.id, deviceId: readsOnly(round.state, seat, deviceId) }).map((answer) => [`${answer.subject} ${answer.field}`, answer]));
  const planned = parsed.rows.map((row) => planRow({ facts, round, seat, standing }, row));
  const rows = planned.map(({ row, fate }) => ({ line: row.line, puppy: row.puppy, evaluator: row.evaluator, criterion: row.criterion, score: row.score, fate }));
  const sound = rows.every((row) => passing.has(row.fate));
  return { preview: { rows, sound }, entries: planned.flatMap(({ entry }) => entry ?? []) };
}

type Ground = { readonly facts: EvaluationFacts; readonly round: RoundFacts; readonly seat: SeatFacts; readonly standing: ReadonlyMap<string, Answer> };
type Planned = { readonly row: ScoreRow; readonly fate: RowFate; readonly entry: ImportPlan['entries'][number] | null };

const alike = (one: string, other: string) => one.toLowerCase() === other.toLowerCase();

function planRow({ facts, round, seat, standing }: Ground, row: ScoreRow): Planned {
  const stop = (fate: RowFate): Planned => ({ row, fate, entry: null });
  if (!alike(row.evaluator, seat.label)) return stop('another-seat');
  const puppy = facts.puppies.find((one) => alike(one.name, row.puppy));
  const showing = round.showings.find((one) => one.puppyId === puppy?.id && !one.repeat);
  if (!puppy || !showing) return stop('unknown-puppy');
  if (puppy.withdrawn) return stop('withdrawn');
  const criterion = facts.sheet.criteria.find((one) => alike(one.key, row.criterion) || alike(one.name, row.criterion));
  if (!criterion) return stop('unknown-criterion');
  if (criterion.handsOnly && seat.kind !== 'hands') return stop('hands-only');
  if (row.score === null) return stop('blank');
  if (!Number.isInteger(row.score)) return stop('off-step');
  const answer = standing.get(`${showing.id} score:${criterion.key}`);
  const before = answer?.body.kind === 'score' ? answer.body.value : null;
  if (before === row.score) return stop('same');
  return {
    row,
    fate: before === null ? 'new' : 'replaces',
    entry: {
      subject: showing.id,
      counter: (answer?.counter ?? 0) + 1,
      body: { kind: 'score', criterion: criterion.key, value: row.score, cannotJudge: false },
    },
  };
}
