import { asc, eq, inArray } from 'drizzle-orm';
import { collarSchema } from '#lib/contract/collar';
import type { LitterView } from '#lib/contract/litter';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { litter, puppy, weight } from '../schema';

/** A litter with its puppies and their weights, for its owner only: parents and chip digits are in it. Throws not-found. */
export function getLitter(db: Db, id: string): LitterView {
  const row = db.select().from(litter).where(eq(litter.id, id)).get();
  if (!row) throw new DomainError('not-found');
  const puppies = db.select().from(puppy).where(eq(puppy.litterId, id)).orderBy(asc(puppy.position)).all();
  const weights = db
    .select()
    .from(weight)
    .where(inArray(weight.puppyId, puppies.map((one) => one.id)))
    .orderBy(asc(weight.weighedOn))
    .all();
  return {
    id: row.id,
    name: row.name,
    breed: row.breed,
    dam: row.dam,
    sire: row.sire,
    whelpedOn: row.whelpedOn,
    puppies: puppies.map(({ id: puppyId, name, sex, collar, secondMark, chipDigits }) => ({
      id: puppyId,
      name,
      sex,
      collar: collarSchema.parse(collar),
      secondMark,
      chipDigits,
      weights: weights.filter((one) => one.puppyId === puppyId).map(({ weighedOn, grams }) => ({ weighedOn, grams })),
    })),
  };
}
