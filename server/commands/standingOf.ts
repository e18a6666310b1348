import { getSnapshot } from '#db/queries/getSnapshot';
import { listClearances } from '#db/queries/listClearances';
import { listDecisions } from '#db/queries/listDecisions';
import type { Decision, Hold } from '#lib/contract/decisionView';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import type { Runtime } from '../runtime';

export type Standing = { readonly decisions: readonly Decision[]; readonly holds: readonly Hold[] };

/** Decisions and holds of a revealed evaluation. Throws wrong-phase before reveal. */
export function standingOf({ db }: Runtime, facts: EvaluationFacts): Standing {
  if (facts.round?.state !== 'revealed') throw new DomainError('wrong-phase');
  const { body } = getSnapshot(db, facts.round.id);
  return { decisions: listDecisions(db, facts.id), holds: holdsOf(body, listClearances(db, facts.id)) };
}
