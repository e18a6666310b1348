import { createHash } from 'node:crypto';
import { canonicalCards, type Cards } from '#lib/evaluation/canonicalCards';
import type { Random } from './random';

/** The commitment to one seat's cards of one round; lib/evaluation/canonicalCards says over which bytes. */
export function cardsHash(nonce: string, cards: Cards): string {
  return createHash('sha256').update(Buffer.from(nonce, 'hex')).update(canonicalCards(cards), 'utf8').digest('hex');
}

/** A device's promise: its nonce, and the hash of the cards as it shows them. */
export type Promised = { readonly nonce: string; readonly commitment: string };

/** Whether a promise is over these very cards. Ask it of what the promising device may read: it knows the nonce, and the answer tells it whether they are so. */
export function isPromiseOf({ nonce, commitment }: Promised, cards: Cards): boolean {
  return cardsHash(nonce, cards) === commitment;
}

/**
 * What the server itself commits to. Its nonce is drawn here and nowhere else, so that no published hash can be over cards
 * under a nonce that somebody knew before (BL9): six scores under a known nonce are found in seconds.
 */
export class ServerCommitment {
  readonly nonce: string;
  readonly hash: string;

  private constructor(nonce: string, cards: Cards) {
    this.nonce = nonce;
    this.hash = cardsHash(nonce, cards);
  }

  static over(random: Random, cards: Cards): ServerCommitment {
    return new ServerCommitment(random.id(), cards);
  }
}
