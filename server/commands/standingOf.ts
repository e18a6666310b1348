import { getSnapshot } from '#db/queries/getSnapshot';
import { listClearances } from '#db/queries/listClearances';
import { listDecisions } from '#db/queries/listDecisions';
import type { Decision, Hold } from '#lib/contract/decisionView';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import type { Runtime } from '../runtime';

export type Standing = { readonly decisions: readonly Decision[]; readonly holds: readonly Hold[] };

/** Decisions and holds of a revealed evaluation. Throws wrong-phase before reveal. */
export function standingOf({ db }: Runtime, facts: EvaluationFacts): Standing {
  const [first] = scoredRounds(facts);
  if (!first) throw new DomainError('wrong-phase');
  // Checks are asked once, in the first round.
  const { body } = getSnapshot(db, first.id);
  return { decisions: listDecisions(db, facts.id), holds: holdsOf(body, listClearances(db, facts.id)) };
}
