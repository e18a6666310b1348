import { and, eq, or, type SQL } from 'drizzle-orm';
import type { PhotoMarks } from '#lib/contract/photo';
import type { Db } from '../open';
import { photoMeasurement, photoPointer } from '../schemaPhoto';
import { isReleased, type MarkReader } from './isReleased';
import { photoMarkRows } from './photoMarkRows';
import { sameIssue } from './sameIssue';

type Own = MarkReader & { readonly evaluationId: string; readonly seatId: string };

/** What one seat itself put on the pictures of an evaluation; what is not told yet, to the devices of its issue alone (BL9). */
export function listOwnMarks(db: Db, { evaluationId, seatId, onlyDevice }: Own): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined =>
    and(eq(table.seatId, seatId), onlyDevice === null ? undefined : or(isReleased(db, evaluationId, table), sameIssue(db, table.deviceId, onlyDevice)));
  return photoMarkRows(db, { evaluationId, pointers: of(photoPointer), measurements: of(photoMeasurement) });
}
