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
};

export type CardFault = 'cards' | 'published' | 'promise' | 'board';
export type CheckedCard = { readonly seat: string; readonly roundId: string; readonly locked: boolean; readonly wordsRemoved: boolean; readonly fault: CardFault | null };

/**
 * Makes every commitment again from what the reveal opened. cards: they are not what the hash was made of. published: the
 * hash is not the one this device saw before the reveal. promise: the seat's own card is not the one this device locked.
 */
export function checkCards(opened: readonly OpenedCommitment[], { published, promises, ownSeatId }: Held): CheckedCard[] {
  return opened.map((one): CheckedCard => {
    const { seat, roundId, locked, wordsRemoved } = one;
    const made = wordsRemoved ? one.hash : cardsHash(one.nonce, { roundId, seatId: seat, answers: one.cards });
    const before = published?.find((other) => other.seat === seat);
    const own = seat === ownSeatId && promises.length > 0 && one.by === 'device';
    const kept = promises.some(({ nonce, commitment }) => nonce === one.nonce && commitment === one.hash);
    const fault = made !== one.hash ? 'cards' : before && before.hash !== one.hash ? 'published' : own && !kept ? 'promise' : null;
    return { seat, roundId, locked, wordsRemoved, fault };
  });
}

/** Seats with a score on the board that none of their opened cards holds. */
export function strayScores(board: Pick<BoardView, 'criteria'>, opened: readonly OpenedCommitment[], showings: readonly Showing[]): string[] {
  const puppyOf = new Map(showings.map((one) => [one.id, one.puppyId]));
  const seats = new Set(opened.map((one) => one.seat));
  const held = new Set(
    opened.flatMap(({ seat, cards }) =>
      cards.flatMap(({ subject, body }) => (body.kind === 'score' ? [`${seat} ${puppyOf.get(subject)} ${body.criterion} ${body.value} ${body.cannotJudge}`] : [])),
    ),
  );
  const stray = board.criteria.flatMap(({ criterion, dots }) =>
    dots.flatMap(({ puppy, seat, value, cannotJudge }) => (seat !== null && seats.has(seat) && !held.has(`${seat} ${puppy} ${criterion} ${value} ${cannotJudge}`) ? [seat] : [])),
  );
  return [...new Set(stray)];
}
