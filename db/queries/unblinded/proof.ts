import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { entryBodySchema } from '#lib/contract/entry';
import { entryField, gradeOf } from '#lib/evaluation/entries';
import type { Db } from '../../open';
import { evaluation } from '../../schema/evaluations';
import { round } from '../../schema/rounds';
import { seat } from '../../schema/seats';
import { removal } from '../../schema/seats';
import { snapshot } from '../../schema/results';
import { commitment } from '../../schema/commitments';

export type BoundRound = {
  readonly id: string;
  readonly evaluationId: string;
  readonly state: 'open' | 'closed' | 'revealed';
  /** The snapshot's text as it stands; null before reveal. */
  readonly snapshot: string | null;
};

export type BoundSeat = {
  readonly id: string;
  readonly roundId: string;
  readonly evaluationId: string;
  readonly nonce: string;
  readonly hash: string;
  readonly by: string;
  readonly wordsRemoved: boolean;
};

/** Every round of the data file with what it is bound to. Score data: only for the check of a data file. */
export function listBoundRounds(db: Db): BoundRound[] {
  return db
    .select({ id: round.id, evaluationId: round.evaluationId, state: round.state, snapshot: snapshot.body })
    .from(round)
    .leftJoin(snapshot, eq(snapshot.roundId, round.id))
    .orderBy(asc(round.id))
    .all();
}

/** Every standing commitment with its nonce. Score data, as above. */
export function listBoundSeats(db: Db): BoundSeat[] {
  return db
    .select({
      id: commitment.seatId,
      roundId: commitment.roundId,
      evaluationId: evaluation.id,
      nonce: commitment.nonce,
      hash: commitment.hash,
      by: commitment.madeBy,
      wordsRemoved: sql<number>`${removal.seatId} is not null`,
    })
    .from(commitment)
    .innerJoin(seat, eq(seat.id, commitment.seatId))
    .innerJoin(evaluation, eq(evaluation.id, seat.evaluationId))
    .leftJoin(removal, eq(removal.seatId, seat.id))
    .where(isNull(commitment.voidedAt))
    .all()
    .map((row) => ({ ...row, wordsRemoved: row.wordsRemoved === 1 }));
}

/** Registers whose answer is not, in every part, the entry that was last put in force there. */
const registers = `
  WITH last AS (SELECT max(rowid) AS place FROM entry WHERE status = 'applied' GROUP BY round_id, seat_id, subject, field)
  SELECT e.id AS id FROM last JOIN entry e ON e.rowid = last.place
  LEFT JOIN answer a ON a.round_id = e.round_id AND a.seat_id = e.seat_id AND a.subject = e.subject AND a.field = e.field
  WHERE a.entry_id IS NOT e.id OR a.counter IS NOT e.counter OR a.device_id IS NOT e.device_id OR a.body IS NOT e.body OR a.value IS NOT e.value`;

const strayAnswers = `
  SELECT a.entry_id AS id FROM answer a LEFT JOIN entry e ON e.id = a.entry_id
  WHERE e.id IS NULL OR e.status <> 'applied' OR e.round_id <> a.round_id OR e.seat_id <> a.seat_id OR e.subject <> a.subject OR e.field <> a.field`;

/** Entries of a seat on paper that no typed card accounts for: from another device than the one that typed it, or at another time. */
const strayPaper = `
  SELECT e.id AS id FROM entry e JOIN seat s ON s.id = e.seat_id AND s.paper = 1
  WHERE NOT EXISTS (SELECT 1 FROM paper_card p WHERE p.round_id = e.round_id AND p.seat_id = e.seat_id AND p.showing_id = e.subject AND p.device_id = e.device_id AND p.at = e.received_at)`;

type Row = { readonly id: string; readonly field: string; readonly body: string; readonly value: number | null };

/**
 * Ids of entries that contradict themselves or the register they stand in. Reads every seat's entries, of open rounds too,
 * and lets nothing of what they say out; only the check of a data file may call it.
 */
export function findEntryFaults({ $client }: Db): readonly string[] {
  const faults = new Set(
    [registers, strayAnswers, strayPaper].flatMap((sql) => $client.prepare<[], string>(sql).pluck().all()),
  );
  // What many entries say is the same, to the byte: a step of one criterion.
  const known = new Map<string, boolean>();
  for (const row of $client.prepare<[], Row>('SELECT id, field, body, value FROM entry').iterate()) {
    const key = `${row.field} ${row.value} ${row.body}`;
    const sound = known.get(key) ?? isSound(row);
    if (known.size < 10_000) known.set(key, sound);
    if (!sound) faults.add(row.id);
  }
  return [...faults];
}

/** The columns made from an entry's words say the same as the words. */
function isSound({ field, body, value }: Row): boolean {
  try {
    const said = entryBodySchema.parse(JSON.parse(body));
    return entryField(said) === field && gradeOf(said) === value;
  } catch {
    // No JSON, or none that an entry could be.
    return false;
  }
}

/** What opens the standing commitments of a round, by seat. Score data: only for a revealed round, only in server/reveal. */
export function listNonces(db: Db, roundId: string): ReadonlyMap<string, string> {
  const rows = db
    .select({ seat: commitment.seatId, nonce: commitment.nonce })
    .from(commitment)
    .where(and(eq(commitment.roundId, roundId), isNull(commitment.voidedAt)))
    .all();
  return new Map(rows.map(({ seat, nonce }) => [seat, nonce]));
}
