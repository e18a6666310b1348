import { agreedHash, termsHash } from '#db/queries/boundHashes';
import { insertRound } from '#db/queries/insertRound';
import { setEvaluationPhase } from '#db/queries/setEvaluationPhase';
import { setTableShowing } from '#db/queries/setTableShowing';
import { DomainError } from '#lib/errors';
import { decideOpenRound } from '#lib/evaluation/decideRound';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { unconfirmedParties } from '#lib/evaluation/partiesOf';
import { repeatShowing } from '#lib/evaluation/repeatShowing';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

type Opening = { readonly evaluationId: string; /** True to open although a party has not agreed to the pick order. */ readonly unconfirmed: boolean };

/** Opens the first round, or the lesson's: one showing per puppy in the agreed order; from here on sheet, weights and pick order stand. */
export function openRound(runtime: Runtime, { evaluationId, unconfirmed }: Opening): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideOpenRound(facts, unconfirmed));
    const showings = showingsOf(runtime, facts);
    const first = showings[0];
    if (!first) throw new DomainError('bad-input');
    const occasion = facts.plan.kind === 'lesson' ? 'lesson' : 'first';
    const roundId = random.id();
    insertRound(db, { id: roundId, evaluationId, termsNonce: random.id(), occasion, medium: facts.medium, frozenSheet: JSON.stringify(facts.sheet), openedAt: at, showings, cells: [] });
    setTableShowing(db, evaluationId, facts.medium === 'table' ? first.id : null);
    setEvaluationPhase(db, evaluationId, { phase: 'scoring', at });
    const missing = unconfirmedParties(facts).map((seat) => seat.label);
    const words = missing.length > 0 ? `pick order not confirmed by: ${missing.join(', ')}` : `${new Set(showings.map((showing) => showing.puppyId)).size} puppies`;
    note('owner', 'round-opened', withBindings(words, [['terms', termsHash(db, roundId)], ['agreed', agreedHash(db, roundId)]]));
    touchAll();
  });
}

function showingsOf({ random }: Runtime, facts: EvaluationFacts): { id: string; puppyId: string; repeat: boolean }[] {
  const present = facts.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id);
  const listed = facts.order.filter((id) => present.includes(id));
  const order = [...listed, ...present.filter((id) => !listed.includes(id))];
  const again = facts.plan.silentRepeat ? repeatShowing(order, random.id()) : null;
  const all = [...order.map((puppyId) => ({ puppyId, repeat: false })), ...(again === null ? [] : [{ puppyId: again, repeat: true }])];
  return all.map((showing) => ({ ...showing, id: random.id() }));
}
