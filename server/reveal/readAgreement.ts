import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { Agreement } from '#lib/reconcile/agreement';
import { panelFromSnapshot } from '#lib/reconcile/panelFromSnapshot';
import type { Runtime } from '../runtime';
import { readSnapshot } from './readSnapshot';

/** All agreement coefficients of a revealed round. Throws wrong-phase before reveal (BL6). */
export function readAgreement(runtime: Runtime, facts: EvaluationFacts): Promise<Agreement> {
  return runtime.reconciler.agreement(panelFromSnapshot(readSnapshot(runtime, facts).body));
}
