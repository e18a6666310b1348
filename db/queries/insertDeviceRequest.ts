import type { Db } from '../open';
import { deviceRequest } from '../schemaAccess';

type NewRequest = Pick<typeof deviceRequest.$inferInsert, 'id' | 'tokenHash' | 'digits' | 'askedAt' | 'expiresAt'> & { readonly seatId: string | null };

export function insertDeviceRequest(db: Db, row: NewRequest): void {
  db.insert(deviceRequest).values(row).run();
}
