import { and, eq } from 'drizzle-orm';
import type { Standing } from '#lib/evaluation/receiveEntry';
import type { Db } from '../open';
import { answer, device } from '../schema';

type Register = { readonly roundId: string; readonly seatId: string; readonly subject: string; readonly field: string };

/** What stands in one register of one seat, without its worth; null when nothing does. */
export function findStanding(db: Db, { roundId, seatId, subject, field }: Register): Standing | null {
  const row = db
    .select({ counter: answer.counter, deviceId: answer.deviceId, revokedAt: device.revokedAt })
    .from(answer)
    .innerJoin(device, eq(device.id, answer.deviceId))
    .where(and(eq(answer.roundId, roundId), eq(answer.seatId, seatId), eq(answer.subject, subject), eq(answer.field, field)))
    .get();
  return row ? { counter: row.counter, deviceId: row.deviceId, deviceEnded: row.revokedAt !== null } : null;
}
