import { agreedHash, termsHash } from '#db/queries/boundHashes';
import { insertRound } from '#db/queries/insertRound';
import { listDecisions } from '#db/queries/listDecisions';
import { setTableShowing } from '#db/queries/setTableShowing';
import type { Cell } from '#lib/contract/plan';
import { DomainError } from '#lib/errors';
import { decideOpenSecond } from '#lib/evaluation/decideRound';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

/** Opens the second round, blind again: the cells that were talked about and no other, puppies in the order of the first. */
export function openSecondRound(runtime: Runtime, { evaluationId, cells }: { readonly evaluationId: string; readonly cells: readonly Cell[] }): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideOpenSecond(facts, cells, listDecisions(db, evaluationId)));
    const asked = new Set(cells.map((cell) => cell.puppyId));
    const order = (facts.round?.showings ?? []).filter((showing) => !showing.repeat && asked.has(showing.puppyId));
    const showings = order.map(({ puppyId }) => ({ id: random.id(), puppyId, repeat: false }));
    const [first] = showings;
    if (!first || !facts.round) throw new DomainError('bad-input');
    const { medium } = facts.round;
    const roundId = random.id();
    insertRound(db, { id: roundId, evaluationId, termsNonce: random.id(), occasion: 'second', medium, frozenSheet: null, openedAt: at, showings, cells });
    setTableShowing(db, evaluationId, medium === 'table' ? first.id : null);
    note('owner', 'second-round-opened', withBindings(`${cells.length} scores asked again`, [['terms', termsHash(db, roundId)], ['agreed', agreedHash(db, roundId)]]));
    touchAll();
  });
}
