import type { Db } from '../open';
import { device } from '../schema';

type NewDevice = { readonly id: string; readonly tokenHash: string; readonly owner: boolean; readonly seatId: string | null; readonly createdAt: number };

export function insertDevice(db: Db, { owner, ...row }: NewDevice): void {
  db.insert(device).values({ ...row, owner: owner ? 1 : 0 }).run();
}
