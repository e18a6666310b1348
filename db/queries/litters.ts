import { asc, count, desc, eq, inArray } from 'drizzle-orm';
import { collarSchema } from '#lib/contract/collar';
import type { LitterInput, LitterView, PuppyInput } from '#lib/contract/litter';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { litter, puppy, weight } from '../schema/litters';

/** A litter with its puppies and their weights, for its owner only: parents and chip digits are in it. Throws not-found. */
export function getLitter(db: Db, id: string): LitterView {
  const row = db.select().from(litter).where(eq(litter.id, id)).get();
  if (!row) throw new DomainError('not-found');
  const puppies = db.select().from(puppy).where(eq(puppy.litterId, id)).orderBy(asc(puppy.position)).all();
  const weights = db
    .select()
    .from(weight)
    .where(
      inArray(
        weight.puppyId,
        puppies.map((one) => one.id),
      ),
    )
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

/** Creates a litter, or changes what was typed about it. */
export function saveLitter(db: Db, row: LitterInput & { readonly id: string; readonly createdAt: number }): void {
  const { name, breed, dam, sire, whelpedOn } = row;
  db.insert(litter)
    .values(row)
    .onConflictDoUpdate({ target: litter.id, set: { name, breed, dam, sire, whelpedOn } })
    .run();
}

/** All litters, newest first, with how many puppies each has. */
export function listLitters(db: Db) {
  return db
    .select({
      id: litter.id,
      name: litter.name,
      breed: litter.breed,
      whelpedOn: litter.whelpedOn,
      puppies: count(puppy.id),
    })
    .from(litter)
    .leftJoin(puppy, eq(puppy.litterId, litter.id))
    .groupBy(litter.id)
    .orderBy(desc(litter.whelpedOn), litter.name)
    .all();
}

/** Creates a puppy at the end of its litter, or changes what was typed about it. */
export function savePuppy(
  db: Db,
  row: { readonly id: string; readonly litterId: string; readonly input: PuppyInput },
): void {
  const existing = db.select({ n: count() }).from(puppy).where(eq(puppy.litterId, row.litterId)).get();
  db.insert(puppy)
    .values({ id: row.id, litterId: row.litterId, position: existing?.n ?? 0, ...row.input })
    .onConflictDoUpdate({ target: puppy.id, set: row.input })
    .run();
}

/** One weighing a day; a second one the same day replaces the first. */
export function saveWeight(
  db: Db,
  row: { readonly puppyId: string; readonly weighedOn: string; readonly grams: number },
): void {
  db.insert(weight)
    .values(row)
    .onConflictDoUpdate({ target: [weight.puppyId, weight.weighedOn], set: { grams: row.grams } })
    .run();
}
