import { eq, max } from 'drizzle-orm';
import type { Db } from '../open';
import { device } from '../schema';
import type { CameBy } from './findDevice';

type NewDevice = {
  readonly id: string;
  readonly tokenHash: string;
  readonly owner: boolean;
  readonly seatId: string | null;
  readonly createdAt: number;
  readonly cameBy?: CameBy;
  /** Of the device that let it in; left out, the seat is issued to this one. */
  readonly generation?: number;
};

/** A device with a session. One that no other device let in begins the seat's next generation (BL9). */
export function insertDevice(db: Db, { owner, generation, ...row }: NewDevice): void {
  const last = row.seatId === null ? undefined : db.select({ n: max(device.generation) }).from(device).where(eq(device.seatId, row.seatId)).get();
  db.insert(device)
    .values({ ...row, owner: owner ? 1 : 0, seenAt: row.createdAt, generation: generation ?? (last?.n ?? 0) + 1 })
    .run();
}
