import { getEvaluationFacts } from '#db/queries/evaluations';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { type Acting, type Asker, mustPrepare, mustRead, whoAsks } from '../write/writeEvaluation';

export type Access = Acting & { readonly facts: EvaluationFacts };

/** Who asks, for one evaluation that is read; a change finds it out inside its transaction (server/write). Throws not-found for strangers. */
export function accessTo({ runtime, device }: Asker, evaluationId: string): Access {
  const facts = getEvaluationFacts(runtime.db, evaluationId);
  return { facts, ...whoAsks(facts, device) };
}

/** For whoever prepares: the owner, or an organiser. */
export function preparing(asker: Asker, evaluationId: string): Access {
  const access = accessTo(asker, evaluationId);
  mustPrepare(access);
  return access;
}

/** For whoever reads what is revealed; whether anything is, the procedure finds out. */
export function reading(asker: Asker, evaluationId: string): Access {
  const access = accessTo(asker, evaluationId);
  mustRead(access);
  return access;
}
