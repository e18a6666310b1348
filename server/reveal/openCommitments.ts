import { getSnapshot } from '#db/queries/results';
import { listCommitments } from '#db/queries/commitments';
import { listRemovedSeats } from '#db/queries/seats';
import { listNonces } from '#db/queries/unblinded/proof';
import { openedView } from '#lib/blind/commitmentViews';
import type { OpenedCommitment } from '#lib/contract/commitment';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { scoredRounds } from '#lib/evaluation/rounds';
import type { Runtime } from '../runtime';

/**
 * Nonces and cards of every revealed round, for whoever wants to make the hashes again. An anonymous panel opens to each
 * seat its own card only (BL9). Throws wrong-phase before the first reveal.
 */
export function openCommitments(
  { db }: Runtime,
  facts: EvaluationFacts,
  viewer: Pick<Viewer, 'seatId'>,
): OpenedCommitment[] {
  const rounds = scoredRounds(facts);
  if (rounds.length === 0) throw new DomainError('wrong-phase');
  const wordsRemoved = listRemovedSeats(db, facts.id);
  const only = facts.plan.discussion === 'anonymous' ? (viewer.seatId ?? '') : null;
  return rounds.flatMap(({ id }) => {
    const nonces = listNonces(db, id);
    const commitments = listCommitments(db, id).map((one) => ({ ...one, nonce: nonces.get(one.seat) ?? '' }));
    return openedView(getSnapshot(db, id).body, { commitments, wordsRemoved, only });
  });
}
