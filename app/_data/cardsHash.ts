import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { canonicalCards, type Cards } from '#lib/evaluation/cards';

/**
 * The commitment to one seat's cards, made on this device. A library's hash, because the browser's own is missing on a plain
 * http address; lib/evaluation/cards says over which bytes.
 */
export function cardsHash(nonce: string, cards: Cards): string {
  return bytesToHex(sha256(concatBytes(hexToBytes(nonce), utf8ToBytes(canonicalCards(cards)))));
}
