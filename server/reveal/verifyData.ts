import { createHash } from 'node:crypto';
import { checkFile } from '#db/checkFile';
import { openReadOnly } from '#db/openReadOnly';
import { findRecordFault } from '#db/queries/findRecordFault';
import { listBindingLines, type BindingLine } from '#db/queries/listBindingLines';
import { findEntryFaults } from '#db/queries/unblinded/findEntryFaults';
import { listBoundRounds, listBoundSeats, listCommittedHashes, type BoundRound, type BoundSeat } from '#db/queries/unblinded/listBoundCards';
import { listRoundAnswers, type RoundAnswer } from '#db/queries/unblinded/listRoundAnswers';
import type { Db } from '#db/open';
import { snapshotSchema } from '#lib/contract/snapshot';
import { canonicalCards } from '#lib/evaluation/canonicalCards';
import { cardsHash } from '../cardsHash';

/** What is wrong and where, in words without a score: `id` is that of the entry, seat or round, or a line's number. */
export type DataFault = { readonly what: 'file' | 'record' | 'entry' | 'commitment' | 'snapshot'; readonly id: string; readonly words: string };

export type DataReport = {
  readonly faults: readonly DataFault[];
  readonly lines: number;
  readonly entries: number;
  readonly commitments: number;
  /** Commitments that cannot be made again, because the person's words were removed. */
  readonly wordsRemoved: number;
  readonly snapshots: number;
  /** Rounds that closed before commitments were kept. */
  readonly unbound: number;
  readonly head: string | null;
};

/**
 * Checks a data file without changing it: pages, indices and keys by SQLite, the record's chain, every entry against the
 * register it stands in, every card against its commitment, the record and the snapshot. Tells where, never what.
 */
export function verifyData(file: string): DataReport {
  const { rows, head } = checkFile(file, 'full');
  const db = openReadOnly(file);
  try {
    const lines = listBindingLines(db);
    const rounds = listBoundRounds(db);
    const seats = listBoundSeats(db);
    const cards = readCards(db, rounds);
    return {
      faults: [...recordFaults(db), ...entryFaults(db), ...cards.faults, ...commitmentFaults({ lines, rounds, seats, cards }), ...missingFaults(lines, listCommittedHashes(db)), ...snapshotFaults({ lines, rounds, cards })],
      lines: rows.get('record') ?? 0,
      entries: rows.get('entry') ?? 0,
      commitments: seats.length,
      wordsRemoved: seats.filter((seat) => seat.wordsRemoved).length,
      snapshots: rounds.filter((round) => round.snapshot !== null).length,
      unbound: rounds.filter((round) => round.state !== 'open' && !seats.some((seat) => seat.roundId === round.id)).length,
      head: head && head.hash,
    };
  } finally {
    db.$client.close();
  }
}

type Cards = { readonly byRound: ReadonlyMap<string, readonly RoundAnswer[]>; readonly faults: readonly DataFault[] };
type Bound = { readonly lines: readonly BindingLine[]; readonly rounds: readonly BoundRound[]; readonly cards: Cards };

function recordFaults(db: Db): DataFault[] {
  const line = findRecordFault(db);
  return line === null ? [] : [{ what: 'record', id: String(line), words: 'this line does not follow from the one before' }];
}

function entryFaults(db: Db): DataFault[] {
  return findEntryFaults(db).map((id) => ({ what: 'entry', id, words: 'this entry, or the answer it stands for, is not what was taken in' }));
}

/** A card that cannot even be read is a fault of its round. */
function readCards(db: Db, rounds: readonly BoundRound[]): Cards {
  const byRound = new Map<string, readonly RoundAnswer[]>();
  const faults: DataFault[] = [];
  for (const { id } of rounds) {
    try {
      byRound.set(id, listRoundAnswers(db, id));
    } catch {
      faults.push({ what: 'entry', id, words: 'a card of this round cannot be read' });
    }
  }
  return { byRound, faults };
}

function commitmentFaults({ lines, rounds, seats, cards }: Bound & { readonly seats: readonly BoundSeat[] }): DataFault[] {
  const published = new Set(lines.filter((line) => line.kind.startsWith('committed')).map((line) => `${line.evaluationId} ${line.detail}`));
  const states = new Map(rounds.map((round) => [round.id, round.state]));
  return seats.flatMap((seat): DataFault[] => {
    const fault = (words: string): DataFault[] => [{ what: 'commitment', id: seat.id, words }];
    // SQLite leaves the CHECKs of a file out that is open for reading alone.
    if (seat.by !== 'device' && seat.by !== 'server') return fault('nobody made this commitment');
    if (states.get(seat.roundId) !== 'open' && !published.has(`${seat.evaluationId} ${seat.hash}`)) return fault('this commitment is not the one in the record');
    const own = cards.byRound.get(seat.roundId)?.filter((answer) => answer.seatId === seat.id);
    if (!own || seat.wordsRemoved) return [];
    const made = cardsHash(seat.nonce, { roundId: seat.roundId, seatId: seat.id, answers: own });
    return made === seat.hash ? [] : fault('the cards of this seat are not what was committed');
  });
}

/** What the record says was committed is there. */
function missingFaults(lines: readonly BindingLine[], hashes: ReadonlySet<string>): DataFault[] {
  return lines
    .filter((line) => line.kind.startsWith('committed') && !hashes.has(line.detail))
    .map((line) => ({ what: 'commitment', id: line.evaluationId ?? '', words: 'a commitment in the record is not in the file' }));
}

function snapshotFaults({ lines, rounds, cards }: Bound): DataFault[] {
  const bound = new Set(lines.filter((line) => line.kind === 'round-revealed' || line.kind === 'words-removed').flatMap((line) => line.detail.split(' ')));
  return rounds.flatMap(({ id, state, snapshot }): DataFault[] => {
    const fault = (words: string): DataFault[] => [{ what: 'snapshot', id, words }];
    if (snapshot === null) return state === 'revealed' ? fault('this round is revealed and has no snapshot') : [];
    if (state !== 'revealed') return fault('this round has a snapshot and is not revealed');
    if (!bound.has(createHash('sha256').update(snapshot).digest('hex'))) return fault('this snapshot is not the one in the record');
    const body = snapshotSchema.parse(JSON.parse(snapshot));
    return roundText(id, body.answers) === roundText(id, cards.byRound.get(id) ?? []) ? [] : fault('the cards of this snapshot are not those of the round');
  });
}

/** All seats' cards of a round as one text. */
function roundText(roundId: string, answers: readonly RoundAnswer[]): string {
  const seats = [...new Set(answers.map((answer) => answer.seatId))].toSorted();
  return seats.map((seatId) => canonicalCards({ roundId, seatId, answers: answers.filter((answer) => answer.seatId === seatId) })).join('\n\n');
}
