import { getSnapshot } from '#db/queries/getSnapshot';
import { listCommitments } from '#db/queries/listCommitments';
import { listNonces } from '#db/queries/unblinded/listNonces';
import { openedView } from '#lib/blind/commitmentViews';
import type { OpenedCommitment } from '#lib/contract/commitment';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';

/** Every seat's nonce and cards, for whoever wants to make the hashes again. Throws wrong-phase before reveal. */
export function openCommitments({ db }: Runtime, { round }: EvaluationFacts): OpenedCommitment[] {
  if (round?.state !== 'revealed') throw new DomainError('wrong-phase');
  const nonces = listNonces(db, round.id);
  const commitments = listCommitments(db, round.id).map((one) => ({ ...one, nonce: nonces.get(one.seat) ?? '' }));
  return openedView(getSnapshot(db, round.id).body, commitments);
}
