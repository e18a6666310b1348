import { and, eq, isNull, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { device } from '../schema';

export type Device = {
  readonly id: string;
  readonly owner: boolean;
  readonly seatId: string | null;
  readonly createdAt: number;
  readonly seenAt: number;
  readonly generation: number;
  readonly cameBy: CameBy;
};
export type CameBy = 'link' | 'code' | 'approval' | 'passphrase' | 'recovery';

const deviceRow = prepareOnce((db) =>
  db
    .select({
      id: device.id, owner: device.owner, seatId: device.seatId, createdAt: device.createdAt, seenAt: device.seenAt,
      generation: device.generation, cameBy: device.cameBy,
    })
    .from(device)
    .where(and(eq(device.tokenHash, sql.placeholder('tokenHash')), isNull(device.revokedAt)))
    .prepare(),
);

/** The device a cookie stands for; undefined when unknown or revoked. */
export function findDevice(db: Db, tokenHash: string): Device | undefined {
  const row = deviceRow(db).get({ tokenHash });
  return row && { ...row, owner: row.owner === 1 };
}
