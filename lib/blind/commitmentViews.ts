import type { OpenedCommitment, PublishedCommitment } from '../contract/commitment';
import type { Snapshot } from '../contract/snapshot';
import type { EvaluationFacts } from '../evaluation/facts';

type Commitment = Pick<PublishedCommitment, 'seat' | 'hash' | 'by'>;

/** BL2: the commitments of the newest round once it is closed; before that null, whatever this is given. */
export function commitmentsView(
  { round, seats }: EvaluationFacts,
  commitments: readonly Commitment[],
): PublishedCommitment[] | null {
  if (!round || round.state === 'open') return null;
  const locked = new Set(seats.filter((seat) => seat.lockedAt !== null).map((seat) => seat.id));
  return commitments.map(({ seat, hash, by }) => ({ seat, hash, by, locked: locked.has(seat) }));
}

type Opening = {
  readonly commitments: readonly (Commitment & { readonly nonce: string })[];
  readonly wordsRemoved: ReadonlySet<string>;
  /** The one seat whose card is opened to this viewer, where the panel is anonymous; null opens all. */
  readonly only: string | null;
};

/** What each commitment was made of, from the snapshot that the reveal stored: exists from the reveal on. */
export function openedView(snapshot: Snapshot, { commitments, wordsRemoved, only }: Opening): OpenedCommitment[] {
  const locked = new Set(snapshot.seats.filter((seat) => seat.locked).map((seat) => seat.id));
  const reissued = new Set(snapshot.seats.filter((seat) => seat.reissued).map((seat) => seat.id));
  return commitments
    .filter(({ seat }) => only === null || seat === only)
    .map(({ seat, hash, by, nonce }) => ({
      roundId: snapshot.roundId,
      seat,
      hash,
      by,
      locked: locked.has(seat),
      nonce,
      reissued: reissued.has(seat),
      wordsRemoved: wordsRemoved.has(seat),
      cards: snapshot.answers
        .filter((answer) => answer.seatId === seat)
        .map(({ subject, body }) => ({ subject, body })),
    }));
}
