import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { canonicalCards, type Cards } from '#lib/evaluation/cards';
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

/**
 * The commitment to one seat's cards, made on this device. A library's hash, because the browser's own is missing on a plain
 * http address; lib/evaluation/cards says over which bytes.
 */
export function cardsHash(nonce: string, cards: Cards): string {
  return bytesToHex(sha256(concatBytes(hexToBytes(nonce), utf8ToBytes(canonicalCards(cards)))));
}
