import { asc, eq } from 'drizzle-orm';
import { breedFigureSchema, type BreedFigureInput } from '#lib/contract/photo';
import type { Db } from '../open';
import { breedFigure } from '../schemaPhoto';

export function listBreedFigures(db: Db, litterId: string): BreedFigureInput[] {
  return db
    .select({ ratio: breedFigure.ratio, low: breedFigure.low, high: breedFigure.high, source: breedFigure.source })
    .from(breedFigure)
    .where(eq(breedFigure.litterId, litterId))
    .orderBy(asc(breedFigure.ratio))
    .all()
    .map((row) => breedFigureSchema.parse(row));
}
