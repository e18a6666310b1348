import { and, eq, sql } from 'drizzle-orm';
import type { Standing } from '#lib/evaluation/receiveEntry';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { answer, device } from '../schema';

type Register = { readonly roundId: string; readonly seatId: string; readonly subject: string; readonly field: string };

const standingRow = prepareOnce((db) =>
  db
    .select({ counter: answer.counter, deviceId: answer.deviceId, revokedAt: device.revokedAt })
    .from(answer)
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
  return row ? { counter: row.counter, deviceId: row.deviceId, deviceEnded: row.revokedAt !== null } : null;
}
