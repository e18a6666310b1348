import { withdrawalHashes } from '#db/queries/boundHashes';
import { deleteWithdrawal, insertWithdrawal } from '#db/queries/insertWithdrawal';
import { DomainError } from '#lib/errors';
import { decideWithdrawal } from '#lib/evaluation/decideRound';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

type Withdrawal = { readonly evaluationId: string; readonly puppyId: string; readonly reason: string };

/** Takes a puppy out of this evaluation, before anything is revealed; what was scored of it stays in the history. Asked again, nothing changes. */
export function withdrawPuppy(runtime: Runtime, { evaluationId, puppyId, reason }: Withdrawal): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const refusal = decideWithdrawal(facts, puppyId, true);
    if (refusal) throw new DomainError(refusal);
    const puppy = facts.puppies.find((one) => one.id === puppyId);
    if (!puppy || puppy.withdrawn) return;
    insertWithdrawal(runtime.db, { evaluationId, puppyId, reason, at });
    note('owner', 'puppy-withdrawn', withBindings(`${puppy.name}: ${reason}`, [['withdrawal', withdrawalHashes(runtime.db, evaluationId).at(-1) ?? '']]));
    touchAll();
  });
}

/** Brings a withdrawn puppy back, before anything is revealed, with all that was scored of it; the record keeps both lines. Asked again, nothing changes. */
export function bringBackPuppy(runtime: Runtime, { evaluationId, puppyId }: Omit<Withdrawal, 'reason'>): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const refusal = decideWithdrawal(facts, puppyId, false);
    if (refusal) throw new DomainError(refusal);
    const puppy = facts.puppies.find((one) => one.id === puppyId);
    if (!puppy?.withdrawn) return;
    const before = withdrawalHashes(runtime.db, evaluationId);
    deleteWithdrawal(runtime.db, { evaluationId, puppyId });
    const left = new Set(withdrawalHashes(runtime.db, evaluationId));
    note('owner', 'puppy-brought-back', withBindings(puppy.name, [['withdrawal', before.find((hash) => !left.has(hash)) ?? '']]));
    touchAll();
  });
}
