import { inArray, isNull, or, type SQL } from 'drizzle-orm';
import type { PhotoMarks } from '#lib/contract/photo';
import type { Db } from '../../open';
import { photoMeasurement, photoPointer } from '../../schemaPhoto';
import { photoMarkRows } from '../photoMarkRows';

type Revealed = {
  readonly roundIds: readonly string[];
  /** Whether what was made before the first round is to be shown, too. */
  readonly beforeFirst: boolean;
};

/** All seats' marks and measurements made during the rounds named. Ask for revealed rounds only. */
export function listMarksOfRounds(db: Db, evaluationId: string, { roundIds, beforeFirst }: Revealed): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined => or(inArray(table.roundId, [...roundIds]), beforeFirst ? isNull(table.roundId) : undefined);
  return photoMarkRows(db, { evaluationId, pointers: of(photoPointer), measurements: of(photoMeasurement) });
}
