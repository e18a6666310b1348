import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { deviceRequest } from '../schemaAccess';

export function answerDeviceRequest(db: Db, id: string, { approved, at }: { readonly approved: boolean; readonly at: number }): void {
  db.update(deviceRequest).set({ approved: approved ? 1 : 0, answeredAt: at }).where(eq(deviceRequest.id, id)).run();
}
