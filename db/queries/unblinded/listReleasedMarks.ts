import { and, ne, not, type SQL } from 'drizzle-orm';
import type { PhotoMarks } from '#lib/contract/photo';
import type { Db } from '../../open';
import { photoMeasurement, photoPointer, pointerRemoval } from '../../schemaPhoto';
import { isReleased } from '../isReleased';
import { photoMarkRows } from '../photoMarkRows';

/** All other seats' marks and measurements that may be told. One taken back while something is open is there until that is revealed, as before. */
export function listReleasedMarks(db: Db, evaluationId: string, ownSeatId: string | null): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined =>
    and(isReleased(db, evaluationId, table), ownSeatId === null ? undefined : ne(table.seatId, ownSeatId));
  return photoMarkRows(db, { evaluationId, pointers: of(photoPointer), measurements: of(photoMeasurement), takenBack: not(isReleased(db, evaluationId, pointerRemoval)) });
}
