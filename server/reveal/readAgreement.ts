import { getSnapshot } from '#db/queries/getSnapshot';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { Agreement } from '#lib/reconcile/agreement';
import { panelFromSnapshot } from '#lib/reconcile/panelFromSnapshot';
import type { Runtime } from '../runtime';

/** All agreement coefficients of a revealed round. Throws wrong-phase before reveal (BL6). */
export function readAgreement({ db, reconciler }: Runtime, facts: EvaluationFacts): Promise<Agreement> {
  if (facts.round?.state !== 'revealed') throw new DomainError('wrong-phase');
  return reconciler.agreement(panelFromSnapshot(getSnapshot(db, facts.round.id).body));
}
