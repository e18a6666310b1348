import { insertRound } from '#db/queries/insertRound';
import { setEvaluationPhase } from '#db/queries/setEvaluationPhase';
import { setTableShowing } from '#db/queries/setTableShowing';
import { DomainError } from '#lib/errors';
import { decideOpenRound } from '#lib/evaluation/decideRound';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

/** Opens the first round: one showing per puppy in the agreed order; from here on sheet, weights and pick order stand. */
export function openRound(runtime: Runtime, evaluationId: string): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideOpenRound(facts));
    const present = facts.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id);
    const listed = facts.order.filter((id) => present.includes(id));
    const order = [...listed, ...present.filter((id) => !listed.includes(id))];
    const showings = order.map((puppyId) => ({ id: random.id(), puppyId }));
    const first = showings[0];
    if (!first) throw new DomainError('bad-input');
    insertRound(db, { id: random.id(), evaluationId, medium: facts.medium, frozenSheet: JSON.stringify(facts.sheet), openedAt: at, showings });
    setTableShowing(db, evaluationId, facts.medium === 'table' ? first.id : null);
    setEvaluationPhase(db, evaluationId, { phase: 'scoring', at });
    note('owner', 'round-opened', `${showings.length} puppies`);
    touchAll();
  });
}
