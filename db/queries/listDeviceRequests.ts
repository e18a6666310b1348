import { and, asc, eq, gt, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { deviceRequest } from '../schemaAccess';

export type DeviceRequest = { readonly id: string; readonly tokenHash: string; readonly digits: string; readonly askedAt: number };

/** The devices that ask to be let in to one seat (null: the owner's) and have not been answered, oldest first. */
export function listDeviceRequests(db: Db, { seatId, now }: { readonly seatId: string | null; readonly now: number }): DeviceRequest[] {
  const of = seatId === null ? isNull(deviceRequest.seatId) : eq(deviceRequest.seatId, seatId);
  return db
    .select({ id: deviceRequest.id, tokenHash: deviceRequest.tokenHash, digits: deviceRequest.digits, askedAt: deviceRequest.askedAt })
    .from(deviceRequest)
    .where(and(of, isNull(deviceRequest.answeredAt), gt(deviceRequest.expiresAt, now)))
    .orderBy(asc(deviceRequest.askedAt), asc(deviceRequest.id))
    .all();
}
