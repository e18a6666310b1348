import { withdrawalHashes } from '#db/queries/boundHashes';
import { insertWithdrawal } from '#db/queries/insertWithdrawal';
import { DomainError } from '#lib/errors';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

type Withdrawal = { readonly evaluationId: string; readonly puppyId: string; readonly reason: string };

/** Takes a puppy out of this evaluation, before anything is revealed; what was scored of it stays in the history. */
export function withdrawPuppy(runtime: Runtime, { evaluationId, puppyId, reason }: Withdrawal): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const puppy = facts.puppies.find((one) => one.id === puppyId);
    if (!puppy) throw new DomainError('not-found');
    if (scoredRounds(facts).length > 0) throw new DomainError('wrong-phase');
    insertWithdrawal(runtime.db, { evaluationId, puppyId, reason, at });
    note('owner', 'puppy-withdrawn', withBindings(`${puppy.name}: ${reason}`, [['withdrawal', withdrawalHashes(runtime.db, evaluationId).at(-1) ?? '']]));
    touchAll();
  });
}
