import { asc, eq } from 'drizzle-orm';
import type { Cell } from '#lib/contract/plan';
import type { Db } from '../open';
import { roundCell } from '../schemaPlan';

export function listRoundCells(db: Db, roundId: string): Cell[] {
  return db
    .select({ puppyId: roundCell.puppyId, criterion: roundCell.criterion })
    .from(roundCell)
    .where(eq(roundCell.roundId, roundId))
    .orderBy(asc(roundCell.puppyId), asc(roundCell.criterion))
    .all();
}
