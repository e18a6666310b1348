import { insertRound } from '#db/queries/insertRound';
import { listDecisions } from '#db/queries/listDecisions';
import { listLooks } from '#db/queries/listLooks';
import { setTableShowing } from '#db/queries/setTableShowing';
import type { Cell } from '#lib/contract/plan';
import { DomainError } from '#lib/errors';
import { decideOpenSecond } from '#lib/evaluation/decideRound';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

/** Opens the second round, blind again: the cells that were talked about and no other, puppies in the order of the first. */
export function openSecondRound(runtime: Runtime, { evaluationId, cells }: { readonly evaluationId: string; readonly cells: readonly Cell[] }): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const lookOpen = listLooks(db, evaluationId).some((look) => look.state !== 'revealed');
    refuse(decideOpenSecond(facts, cells, { decisions: listDecisions(db, evaluationId), lookOpen }));
    const asked = new Set(cells.map((cell) => cell.puppyId));
    const order = (facts.round?.showings ?? []).filter((showing) => !showing.repeat && asked.has(showing.puppyId));
    const showings = order.map(({ puppyId }) => ({ id: random.id(), puppyId, repeat: false }));
    const [first] = showings;
    if (!first || !facts.round) throw new DomainError('bad-input');
    const { medium } = facts.round;
    insertRound(db, { id: random.id(), evaluationId, occasion: 'second', medium, frozenSheet: null, openedAt: at, showings, cells });
    setTableShowing(db, evaluationId, medium === 'table' ? first.id : null);
    note('owner', 'second-round-opened', `${cells.length} scores asked again`);
    touchAll();
  });
}
