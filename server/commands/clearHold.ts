import { clearanceHashes } from '#db/queries/boundHashes';
import { insertClearance } from '#db/queries/insertClearance';
import { DomainError } from '#lib/errors';
import { mayDecideNow } from '#lib/evaluation/decidePick';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { standingOf } from './standingOf';
import { writeEvaluation } from './writeEvaluation';

type Answer = { readonly evaluationId: string; readonly puppyId: string; readonly check: string; readonly answer: string; readonly by: string };

/** Lets a hold fall on a recorded veterinary answer: what was said, and by whom. The tool itself says nothing of health. */
export function clearHold(runtime: Runtime, { evaluationId, puppyId, check, answer, by }: Answer): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(mayDecideNow(facts));
    const hold = standingOf(runtime, facts).holds.find((one) => one.puppyId === puppyId && one.check === check);
    if (!hold) throw new DomainError('not-found');
    if (hold.cleared) throw new DomainError('in-use');
    insertClearance(runtime.db, { evaluationId, puppyId, check, answer, by, at });
    // What was said, and by whom, stands in the clearance: no person's name goes into what can never change.
    const words = `${facts.puppies.find((puppy) => puppy.id === puppyId)?.name ?? ''}, ${check}`;
    note('owner', 'hold-cleared', withBindings(words, [['clearance', clearanceHashes(runtime.db, evaluationId).at(-1) ?? '']]));
    touchAll();
  });
}
