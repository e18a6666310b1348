import { listEvaluations } from '#db/queries/listEvaluations';
import { inTransaction } from '#db/inTransaction';
import { appendRecord } from '#db/queries/appendRecord';
import { seatHash } from '#db/queries/boundHashes';
import { getLitter } from '#db/queries/getLitter';
import { getSheet } from '#db/queries/getSheet';
import { insertEvaluation } from '#db/queries/insertEvaluation';
import { replacePurposes } from '#db/queries/replacePurposes';
import { replaceSlots } from '#db/queries/replaceSlots';
import { saveSeat } from '#db/queries/saveSeat';
import type { EvaluationInput } from '#lib/contract/setup';
import { withBindings } from '#lib/proof/recordKinds';
import type { Sheet } from '#lib/sheet/sheet';
import type { Runtime } from '../runtime';
import { beginBinding } from './beginBinding';

type NewEvaluation = { readonly litterId: string; readonly sheetId: string; readonly input: EvaluationInput; /** The same when it is asked again (SC2); left out for a fresh one. */ readonly newId?: string };

/** A new evaluation with what nearly every one needs: the owner's own seat, a keep with equal weights, one slot for it. */
export function createEvaluation({ db, random, clock }: Runtime, { litterId, sheetId, input, newId: id = random.id() }: NewEvaluation): string {
  return inTransaction(db, () => {
    const litter = getLitter(db, litterId);
    const { sheet } = getSheet(db, sheetId);
    if (listEvaluations(db).some((one) => one.id === id)) return id;
    const seatId = random.id();
    const at = clock.now();
    insertEvaluation(db, { ...input, id, litterId, sheetId, order: litter.puppies.map((puppy) => puppy.id), createdAt: at });
    saveSeat(db, {
      id: seatId,
      evaluationId: id,
      owner: true,
      input: { label: 'breeder', kind: 'hands', leads: true, picks: true, interest: 'owns the litter' },
    });
    replacePurposes(db, id, [{ key: 'keep', weights: equalWeights(sheet) }]);
    replaceSlots(db, id, [
      { id: random.id(), taker: 'breeder', seatId, purpose: 'keep', sex: 'any', condition: '', byWhen: '', ifFails: '' },
    ]);
    appendRecord(db, { evaluationId: id, at, actor: 'owner', kind: 'evaluation-created', detail: withBindings(input.name, [['seat', seatHash(db, seatId)]]) });
    beginBinding(db, { evaluationId: id, at });
    return id;
  });
}

function equalWeights(sheet: Sheet): Record<string, number> {
  return Object.fromEntries(sheet.criteria.map((criterion) => [criterion.key, 1]));
}
