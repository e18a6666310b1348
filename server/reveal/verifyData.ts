import { checkFile } from '#db/checkFile';
import { type Db, openReadOnly } from '#db/open';
import { findImportedFaults, findRecordFault, listRecordLines } from '#db/queries/record';
import {
  type BoundRound,
  type BoundSeat,
  findEntryFaults,
  listBoundRounds,
  listBoundSeats,
} from '#db/queries/unblinded/proof';
import { listRoundAnswers, type RoundAnswer } from '#db/queries/unblinded/answers';
import { readHeld } from '#db/queries/unblinded/held';
import { snapshotSchema } from '#lib/contract/snapshot';
import { canonicalCards } from '#lib/evaluation/cards';
import type { HeldEvaluation } from '#lib/proof/heldState';
import { proofOf, type ProofFault } from '#lib/proof/proofFaults';
import { promisedState } from '#lib/proof/promisedState';
import type { PromisedEvaluation } from '#lib/proof/promises';
import { cardsHash } from '../write/commitCards';
import { computeAgain, decidedUponFaults, type ResultFault } from './checkResults';

/** What is wrong and where, in words without a score: `id` is that of the row, or a line's number. */
type DataFault = {
  readonly what: ProofFault['what'] | 'file' | 'entry' | 'result';
  readonly id: string;
  readonly words: string;
};

export type DataReport = {
  readonly faults: readonly DataFault[];
  readonly lines: number;
  readonly entries: number;
  readonly commitments: number;
  /** Commitments that cannot be made again, because the person's words were removed. */
  readonly wordsRemoved: number;
  readonly snapshots: number;
  /** What stands from before the record bound such things by hash: it can be neither shown nor refuted. */
  readonly unbound: number;
  /** Evaluations of which the record does not tell at all, from before the record bound. */
  readonly untold: number;
  readonly recomputed: number;
  readonly notRecomputed: number;
  readonly head: string | null;
};

/**
 * Checks a data file without changing it: pages, indices and keys by SQLite, the record's chain, the tables against the
 * state that the record promises and the other way round, every entry against the register it stands in, every card against
 * its commitment and snapshot, stored results against the engine. Tells where, never what.
 */
export function verifyData(file: string): DataReport {
  const { rows, head } = checkFile(file, 'full');
  const db = openReadOnly(file);
  try {
    const rounds = listBoundRounds(db);
    const seats = listBoundSeats(db);
    const cards = readCards(db, rounds);
    const record = recordProof(db);
    const decided = decidedUponFaults(db, record.evaluations);
    const faults = [
      ...recordFaults(db),
      ...record.faults,
      ...entryFaults(db),
      ...cards.faults,
      ...commitmentFaults(seats, cards),
      ...snapshotFaults(rounds, { cards, record }),
      ...resultFaults(decided),
    ];
    const results = computeAgain(db, faults.length === 0 ? record.evaluations : []);
    return {
      faults: [...faults, ...resultFaults(results.faults)],
      lines: rows.get('record') ?? 0,
      entries: rows.get('entry') ?? 0,
      commitments: seats.length,
      wordsRemoved: seats.filter((seat) => seat.wordsRemoved).length,
      snapshots: rounds.filter((round) => round.snapshot !== null).length,
      unbound: record.unbound,
      untold: record.untold,
      recomputed: results.recomputed,
      notRecomputed: results.notRecomputed,
      head: head && head.hash,
    };
  } finally {
    db.$client.close();
  }
}

type RecordProof = {
  readonly faults: readonly DataFault[];
  readonly unbound: number;
  readonly untold: number;
  readonly evaluations: readonly PromisedEvaluation[];
  readonly untoldIds: ReadonlySet<string>;
};

function recordFaults(db: Db): DataFault[] {
  const line = findRecordFault(db);
  return [
    ...(line === null
      ? []
      : [{ what: 'record', id: String(line), words: 'this line does not follow from the one before' } as const]),
    ...findImportedFaults(db).map(
      ({ evaluationId, seq }): DataFault => ({
        what: 'record',
        id: `${evaluationId} ${seq}`,
        words: 'this line of an imported evaluation does not follow from the one before',
      }),
    ),
  ];
}

function recordProof(db: Db): RecordProof {
  const promised = promisedState(listRecordLines(db));
  const held = readHeld(db);
  const there = new Set(held.map((one) => one.id));
  const missing = [...promised.evaluations.keys()].filter((id) => !there.has(id));
  const untold = held.filter(({ id }) => promised.evaluations.get(id)?.known !== true);
  const proofs = held.flatMap((one) => {
    const said = promised.evaluations.get(one.id);
    return said?.known ? [proofOf(said, one)] : [];
  });
  return {
    faults: [
      ...promised.faults.map(({ seq, words }): DataFault => ({ what: 'record', id: String(seq), words })),
      ...missing.map(
        (id): DataFault => ({ what: 'evaluation', id, words: 'an evaluation of the record is not in the file' }),
      ),
      ...held.flatMap((one) => ageFaults(one, promised)),
      ...proofs.flatMap((proof) => proof.faults),
    ],
    unbound: proofs.reduce((sum, proof) => sum + proof.unbound, 0),
    untold: untold.length,
    evaluations: [...promised.evaluations.values()].filter((one) => one.known && there.has(one.id)),
    untoldIds: new Set(untold.map((one) => one.id)),
  };
}

/**
 * Nothing made since the record began to bind is excused as older: the first server of this version gave every evaluation there was its line.
 * Nor is one that was imported: it came with its record.
 */
function ageFaults(
  { id, imported }: HeldEvaluation,
  { evaluations, begun }: ReturnType<typeof promisedState>,
): DataFault[] {
  const said = evaluations.get(id);
  const came = imported.length > 0 || (said !== undefined && said.imported.length > 0);
  if (came && said?.known !== true)
    return [{ what: 'evaluation', id, words: 'the record that this imported evaluation came with is not here' }];
  if (begun === null) return [];
  if (said?.bound && (said.boundFromStart || said.firstSeq < begun || !said.known)) return [];
  return [{ what: 'evaluation', id, words: 'the record does not say when this evaluation began to be bound' }];
}

function entryFaults(db: Db): DataFault[] {
  return findEntryFaults(db).map((id) => ({
    what: 'entry',
    id,
    words: 'this entry, or the answer it stands for, is not what was taken in',
  }));
}

type Cards = { readonly byRound: ReadonlyMap<string, readonly RoundAnswer[]>; readonly faults: readonly DataFault[] };

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

function commitmentFaults(seats: readonly BoundSeat[], cards: Cards): DataFault[] {
  return seats.flatMap((seat): DataFault[] => {
    const fault = (words: string): DataFault[] => [{ what: 'commitment', id: seat.id, words }];
    // SQLite leaves the CHECKs of a file out that is open for reading alone.
    if (seat.by !== 'device' && seat.by !== 'server') return fault('nobody made this commitment');
    const own = cards.byRound.get(seat.roundId)?.filter((answer) => answer.seatId === seat.id);
    if (!own || seat.wordsRemoved) return [];
    const made = cardsHash(seat.nonce, { roundId: seat.roundId, seatId: seat.id, answers: own });
    return made === seat.hash ? [] : fault('the cards of this seat are not what was committed');
  });
}

/** A snapshot and the answers it was taken from say the same; that it is the one in the record is checked with the record. */
function snapshotFaults(
  rounds: readonly BoundRound[],
  { cards, record }: { readonly cards: Cards; readonly record: RecordProof },
): DataFault[] {
  return rounds.flatMap(({ id, evaluationId, snapshot }): DataFault[] => {
    if (snapshot === null || record.untoldIds.has(evaluationId)) return [];
    const body = readSnapshotBody(snapshot);
    if (!body) return [{ what: 'snapshot', id, words: 'this snapshot cannot be read' }];
    return roundText(id, body.answers) === roundText(id, cards.byRound.get(id) ?? [])
      ? []
      : [{ what: 'snapshot', id, words: 'the cards of this snapshot are not those of the round' }];
  });
}

function readSnapshotBody(text: string): { readonly answers: readonly RoundAnswer[] } | null {
  try {
    return snapshotSchema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}

/** All seats' cards of a round as one text. */
function roundText(roundId: string, answers: readonly RoundAnswer[]): string {
  const seats = [...new Set(answers.map((answer) => answer.seatId))].toSorted();
  return seats
    .map((seatId) => canonicalCards({ roundId, seatId, answers: answers.filter((answer) => answer.seatId === seatId) }))
    .join('\n\n');
}

function resultFaults(faults: readonly ResultFault[]): DataFault[] {
  return faults.map((fault) => ({ what: 'result', ...fault }));
}
