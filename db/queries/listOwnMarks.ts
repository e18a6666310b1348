import { and, eq, type SQL } from 'drizzle-orm';
import type { PhotoMarks } from '#lib/contract/photo';
import type { Db } from '../open';
import { photoMeasurement, photoPointer } from '../schemaPhoto';
import { photoMarkRows } from './photoMarkRows';

type Own = {
  readonly evaluationId: string;
  readonly seatId: string;
  /** Only what this device made (BL9); null for all of the seat's. */
  readonly onlyDevice: string | null;
};

/** What one seat itself put on the pictures of an evaluation. */
export function listOwnMarks(db: Db, { evaluationId, seatId, onlyDevice }: Own): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined =>
    and(eq(table.seatId, seatId), onlyDevice === null ? undefined : eq(table.deviceId, onlyDevice));
  return photoMarkRows(db, { evaluationId, pointers: of(photoPointer), measurements: of(photoMeasurement) });
}
