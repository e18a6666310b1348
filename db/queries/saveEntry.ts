import { and, eq } from 'drizzle-orm';
import type { Entry } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import type { Db } from '../open';
import { answer, device, entry } from '../schema';

type NewEntry = {
  readonly entry: Entry;
  readonly roundId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly late: boolean;
  readonly receivedAt: number;
};

/**
 * Keeps an entry for good and, unless it is late or an edit with a higher counter stands, puts it in force.
 * Two devices with the same counter: the higher device id wins, the same on every replica. What a device whose session
 * has ended left standing yields to any edit from another one: a reissued seat's new device does not know its counters.
 */
export function saveEntry(db: Db, row: NewEntry): 'applied' | 'superseded' | 'late' {
  const field = entryField(row.entry.body);
  const register = and(
    eq(answer.roundId, row.roundId),
    eq(answer.seatId, row.seatId),
    eq(answer.subject, row.entry.subject),
    eq(answer.field, field),
  );
  const standing = db
    .select({ counter: answer.counter, deviceId: answer.deviceId, revokedAt: device.revokedAt })
    .from(answer)
    .innerJoin(device, eq(device.id, answer.deviceId))
    .where(register)
    .get();
  const newer =
    !standing ||
    (standing.revokedAt !== null && standing.deviceId !== row.deviceId) ||
    row.entry.counter > standing.counter ||
    (row.entry.counter === standing.counter && row.deviceId > standing.deviceId);
  const status = row.late ? 'late' : newer ? 'applied' : 'superseded';
  const { subject, counter, body, id, madeAt } = row.entry;
  const shared = { roundId: row.roundId, seatId: row.seatId, deviceId: row.deviceId, subject, field, counter, body: JSON.stringify(body), value: gradeOf(body) };
  db.insert(entry).values({ ...shared, id, status, madeAt, receivedAt: row.receivedAt }).run();
  if (status === 'applied') {
    const set = { ...shared, entryId: id };
    db.insert(answer).values(set).onConflictDoUpdate({ target: [answer.roundId, answer.seatId, answer.subject, answer.field], set }).run();
  }
  return status;
}

/** The graded value in a column of its own, where a CHECK guards it; null for everything that is no grade. */
function gradeOf(body: Entry['body']): number | null {
  return body.kind === 'score' || body.kind === 'free' || body.kind === 'overall' ? body.value : null;
}
