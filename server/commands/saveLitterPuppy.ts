import { inTransaction } from '#db/inTransaction';
import { getLitter } from '#db/queries/getLitter';
import { savePuppy } from '#db/queries/savePuppy';
import type { PuppyInput } from '#lib/contract/litter';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';

type PuppyChange = { readonly litterId: string; readonly puppyId: string | null; readonly puppy: PuppyInput; /** For one that is added: the same when it is asked again (SC2); left out for a fresh one. */ readonly newId?: string };

/** Adds a puppy or changes one. Two puppies of a litter never share a name: every picture and sentence goes by it. */
export function saveLitterPuppy({ db, random }: Runtime, { litterId, puppyId, puppy, newId = random.id() }: PuppyChange): string {
  return inTransaction(db, () => {
    const { puppies } = getLitter(db, litterId);
    if (puppyId !== null && !puppies.some((one) => one.id === puppyId)) throw new DomainError('not-found');
    const id = puppyId ?? newId;
    if (puppyId === null && puppies.some((one) => one.id === newId)) return newId;
    const taken = puppies.some((one) => one.id !== puppyId && one.name.toLowerCase() === puppy.name.toLowerCase());
    if (taken) throw new DomainError('bad-input', { field: 'name' });
    if (puppyId === null && puppies.length >= 20) throw new DomainError('too-many');
    savePuppy(db, { id, litterId, input: puppy });
    return id;
  });
}
