import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { deviceRequest } from '../schemaAccess';

/** What a waiting device's own secret stands for. */
export function findDeviceRequest(db: Db, tokenHash: string) {
  return db
    .select({ digits: deviceRequest.digits, expiresAt: deviceRequest.expiresAt, approved: deviceRequest.approved })
    .from(deviceRequest)
    .where(eq(deviceRequest.tokenHash, tokenHash))
    .get();
}
