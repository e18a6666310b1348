import { createHash } from 'node:crypto';
import { canonicalCards, type Cards } from '#lib/evaluation/canonicalCards';

/** The commitment to one seat's cards of one round; lib/evaluation/canonicalCards says over which bytes. */
export function cardsHash(nonce: string, cards: Cards): string {
  return createHash('sha256').update(Buffer.from(nonce, 'hex')).update(canonicalCards(cards), 'utf8').digest('hex');
}
