import { count, desc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { litter, puppy } from '../schema';

/** All litters, newest first, with how many puppies each has. */
export function listLitters(db: Db) {
  return db
    .select({ id: litter.id, name: litter.name, breed: litter.breed, whelpedOn: litter.whelpedOn, puppies: count(puppy.id) })
    .from(litter)
    .leftJoin(puppy, eq(puppy.litterId, litter.id))
    .groupBy(litter.id)
    .orderBy(desc(litter.whelpedOn), litter.name)
    .all();
}
