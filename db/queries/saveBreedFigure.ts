import type { Db } from '../open';
import { breedFigure } from '../schemaPhoto';

/** One figure a litter and ratio; a later one takes its place. */
export function saveBreedFigure(db: Db, row: typeof breedFigure.$inferInsert): void {
  const { low, high, source, confirmedAt } = row;
  db.insert(breedFigure).values(row).onConflictDoUpdate({ target: [breedFigure.litterId, breedFigure.ratio], set: { low, high, source, confirmedAt } }).run();
}
