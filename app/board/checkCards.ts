import type { BoardView } from '#lib/contract/boardView';
import type { OpenedCommitment, PublishedCommitment } from '#lib/contract/commitment';
import type { Showing } from '#lib/contract/evaluationView';
import { cardsHash } from '../_data/cardsHash';
import type { KeptPromise } from '../_data/keptPromises';

/** What this device holds the server to. */
export type Held = {
  readonly published: readonly PublishedCommitment[] | null;
  /** What this device promised with its own locks; empty when it locked nothing. */
  readonly promises: readonly KeptPromise[];
  readonly ownSeatId: string | null;
  readonly roundId: string;
  /** An anonymous panel opens to each seat its own card only: others are not missing. */
  readonly anonymous: boolean;
};

export type CardFault = 'cards' | 'published' | 'promise' | 'server' | 'missing' | 'board';
export type CheckedCard = { readonly seat: string; readonly roundId: string; readonly locked: boolean; readonly wordsRemoved: boolean; readonly fault: CardFault | null };

/**
 * Makes every commitment of one round again from what the reveal opened. cards: they are not what the hash was made of.
 * published: the commitment is not the one this device saw before the reveal. promise: the seat's own card is not the one this
 * device locked. server: the seat locked and was not issued again, yet the server says that it made the commitment. missing: a
 * card that was published, or locked by this device, was not opened.
 */
export function checkCards(opened: readonly OpenedCommitment[], held: Held): CheckedCard[] {
  const checked = opened.map((one): CheckedCard => {
    const { seat, roundId, locked, wordsRemoved } = one;
    return { seat, roundId, locked, wordsRemoved, fault: faultOf(one, held) };
  });
  return [...checked, ...missingCards(opened, held)];
}

function faultOf(one: OpenedCommitment, { published, promises, ownSeatId }: Held): CardFault | null {
  const { seat, roundId, hash, by, locked, nonce } = one;
  if (!one.wordsRemoved && cardsHash(nonce, { roundId, seatId: seat, answers: one.cards }) !== hash) return 'cards';
  const before = published?.find((other) => other.seat === seat);
  if (before ? before.hash !== hash || before.by !== by || before.locked !== locked : published !== null) return 'published';
  if (by === 'server' && locked && !one.reissued) return 'server';
  const own = seat === ownSeatId && promises.length > 0 && by === 'device';
  return own && !promises.some((kept) => kept.nonce === nonce && kept.commitment === hash) ? 'promise' : null;
}

function missingCards(opened: readonly OpenedCommitment[], { published, promises, ownSeatId, roundId, anonymous }: Held): CheckedCard[] {
  const mayKnow = (published ?? []).filter(({ seat }) => !anonymous || seat === ownSeatId);
  const own = ownSeatId !== null && promises.length > 0 && !mayKnow.some(({ seat }) => seat === ownSeatId) ? [{ seat: ownSeatId, locked: true }] : [];
  return [...mayKnow, ...own]
    .filter(({ seat }) => !opened.some((one) => one.seat === seat))
    .map(({ seat, locked }) => ({ seat, roundId, locked, wordsRemoved: false, fault: 'missing' }));
}

/** Seats with a score on the board that none of their opened cards holds; a seat without an opened card has none that does, once anything was committed. */
export function strayScores(board: Pick<BoardView, 'criteria'>, opened: readonly OpenedCommitment[], showings: readonly Showing[]): string[] {
  const puppyOf = new Map(showings.map((one) => [one.id, one.puppyId]));
  const seats = new Set(opened.map((one) => one.seat));
  const held = new Set(
    opened.flatMap(({ seat, cards }) =>
      cards.flatMap(({ subject, body }) => (body.kind === 'score' ? [`${seat} ${puppyOf.get(subject)} ${body.criterion} ${body.value} ${body.cannotJudge}`] : [])),
    ),
  );
  const stray = board.criteria.flatMap(({ criterion, dots }) =>
    dots.flatMap(({ puppy, seat, value, cannotJudge }) => (seat !== null && seats.size > 0 && !held.has(`${seat} ${puppy} ${criterion} ${value} ${cannotJudge}`) ? [seat] : [])),
  );
  return [...new Set(stray)];
}
