import { keptStore, type KeptStore } from './keptStore';

/** What this device sent with a lock. */
export type KeptPromise = { readonly nonce: string; readonly commitment: string };
type Owner = { readonly roundId: string; readonly seatId: string };

const keyOf = ({ roundId, seatId }: Owner): string => `promises ${roundId} ${seatId}`;

/** Adds a promise before it is sent. All are kept: a lock whose answer was lost may be the one that counts. */
export async function keepPromise(owner: Owner, promise: KeptPromise, store: KeptStore = keptStore): Promise<void> {
  await store.update(keyOf(owner), (present) => [...promisesOf(present), promise]);
}

/** Every promise this device sent for a seat in a round; empty on a device that locked nothing there. */
export async function readPromises(owner: Owner, store: KeptStore = keptStore): Promise<readonly KeptPromise[]> {
  return promisesOf(await store.get(keyOf(owner)));
}

function promisesOf(kept: unknown): readonly KeptPromise[] {
  return Array.isArray(kept) ? (kept as readonly KeptPromise[]) : [];
}
