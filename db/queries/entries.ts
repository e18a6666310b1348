import { and, asc, eq, inArray, sql } from 'drizzle-orm';
import { type Answer, type Entry, type EntryBody, entryBodySchema } from '#lib/contract/entry';
import { entryField, gradeOf, type Standing } from '#lib/evaluation/entries';
import type { HeldAnswer } from '#lib/evaluation/cards';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { answer, entry } from '../schema/entries';
import { device } from '../schema/devices';
import { practiceCard } from '../schema/entries';
import { sameIssue } from './devices';

type NewEntry = {
  readonly entry: Entry;
  readonly roundId: string;
  readonly seatId: string;
  readonly deviceId: string;
  /** As lib/evaluation/entries has found. */
  readonly status: 'applied' | 'superseded' | 'late';
  readonly receivedAt: number;
};

const { placeholder } = sql;
const shared = {
  roundId: placeholder('roundId'),
  seatId: placeholder('seatId'),
  deviceId: placeholder('deviceId'),
  subject: placeholder('subject'),
  field: placeholder('field'),
  counter: placeholder('counter'),
  body: placeholder('body'),
  value: placeholder('value'),
};
const insertEntry = prepareOnce((db) =>
  db
    .insert(entry)
    .values({
      ...shared,
      id: placeholder('id'),
      status: placeholder('status'),
      madeAt: placeholder('madeAt'),
      receivedAt: placeholder('receivedAt'),
    })
    .prepare(),
);
const putInForce = prepareOnce((db) =>
  db
    .insert(answer)
    .values({ ...shared, entryId: placeholder('id') })
    .onConflictDoUpdate({
      target: [answer.roundId, answer.seatId, answer.subject, answer.field],
      set: {
        counter: sql`excluded.counter`,
        deviceId: sql`excluded.device_id`,
        entryId: sql`excluded.entry_id`,
        body: sql`excluded.body`,
        value: sql`excluded.value`,
      },
    })
    .prepare(),
);

/** Keeps an entry for good and, when it is applied, puts it in force. */
export function saveEntry(db: Db, { entry: { body, ...made }, ...arrived }: NewEntry): void {
  const row = { ...made, ...arrived, field: entryField(body), body: JSON.stringify(body), value: gradeOf(body) };
  insertEntry(db).run(row);
  if (arrived.status === 'applied') putInForce(db).run(row);
}

const entryRow = prepareOnce((db) =>
  db
    .select({ seatId: entry.seatId, status: entry.status })
    .from(entry)
    .where(eq(entry.id, sql.placeholder('id')))
    .prepare(),
);

/** Whose entry this id is and what became of it; undefined when new. A repeated send is answered from here (SC2). */
export function findEntry(db: Db, id: string) {
  return entryRow(db).get({ id });
}

type Register = { readonly roundId: string; readonly seatId: string; readonly subject: string; readonly field: string };

const standingRow = prepareOnce((db) =>
  db
    .select({ counter: answer.counter, deviceId: answer.deviceId, madeAt: entry.madeAt, revokedAt: device.revokedAt })
    .from(answer)
    .innerJoin(entry, eq(entry.id, answer.entryId))
    .innerJoin(device, eq(device.id, answer.deviceId))
    .where(
      and(
        eq(answer.roundId, sql.placeholder('roundId')),
        eq(answer.seatId, sql.placeholder('seatId')),
        eq(answer.subject, sql.placeholder('subject')),
        eq(answer.field, sql.placeholder('field')),
      ),
    )
    .prepare(),
);

/** What stands in one register of one seat, without its worth; null when nothing does. */
export function findStanding(db: Db, register: Register): Standing | null {
  const row = standingRow(db).get(register);
  return row
    ? { counter: row.counter, deviceId: row.deviceId, madeAt: row.madeAt, deviceEnded: row.revokedAt !== null }
    : null;
}

type OwnPast = {
  readonly seatId: string;
  /** Only what this device and those of the same issue entered (BL9); null for all of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: everything one seat ever entered, in the order it came in; no way to ask for two seats at once. */
export function listOwnEntries(db: Db, { seatId, deviceId }: OwnPast) {
  return db
    .select({
      roundId: entry.roundId,
      subject: entry.subject,
      body: entry.body,
      status: entry.status,
      madeAt: entry.madeAt,
      receivedAt: entry.receivedAt,
    })
    .from(entry)
    .where(and(eq(entry.seatId, seatId), deviceId === null ? undefined : sameIssue(db, entry.deviceId, deviceId)))
    .orderBy(asc(entry.receivedAt), asc(entry.id))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}

type OwnCard = {
  readonly seatId: string;
  readonly roundId: string;
  /** Only what this device and those of the same issue made (BL9: the new device of a reissued seat); null for all of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: one seat's answers in force in one round; no way to ask for two seats at once. */
export function listOwnAnswers(db: Db, { seatId, roundId, deviceId }: OwnCard): Answer[] {
  return db
    .select({ subject: answer.subject, field: answer.field, counter: answer.counter, body: answer.body })
    .from(answer)
    .where(
      and(
        eq(answer.seatId, seatId),
        eq(answer.roundId, roundId),
        deviceId === null ? undefined : sameIssue(db, answer.deviceId, deviceId),
      ),
    )
    .orderBy(asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}

type Cards = { readonly seatId: string; readonly roundId: string; readonly subjects: readonly string[] };

/** One seat's answers in force about some showings, with the device that made each. Never leaves the server. */
export function listHeldAnswers(db: Db, { seatId, roundId, subjects }: Cards): HeldAnswer[] {
  return db
    .select({
      subject: answer.subject,
      field: answer.field,
      counter: answer.counter,
      body: answer.body,
      deviceId: answer.deviceId,
    })
    .from(answer)
    .where(and(eq(answer.seatId, seatId), eq(answer.roundId, roundId), inArray(answer.subject, [...subjects])))
    .orderBy(asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}

/** What an entry says, kept as JSON in one column. */
export function parseBody(json: string): EntryBody {
  return entryBodySchema.parse(JSON.parse(json));
}

/** Keeps a seat's practice; false when it has one already. */
export function insertPracticeCard(db: Db, row: typeof practiceCard.$inferInsert): boolean {
  return db.insert(practiceCard).values(row).onConflictDoNothing().run().changes === 1;
}
