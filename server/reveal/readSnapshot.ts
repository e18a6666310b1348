import { getSnapshot } from '#db/queries/getSnapshot';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import { mergedSnapshot } from '#lib/reconcile/mergedSnapshot';
import type { Runtime } from '../runtime';

export type ReadSnapshot = {
  /** Names everything the result is computed from, for its cache key. */
  readonly ids: readonly string[];
  /** What merit is worked out from: second scores where given, else first. */
  readonly body: Snapshot;
  readonly first: Snapshot;
  readonly second: Snapshot | null;
};

/** What reveal stored of an evaluation's scored rounds. Throws wrong-phase before the first reveal (BL6). */
export function readSnapshot({ db }: Pick<Runtime, 'db'>, facts: EvaluationFacts): ReadSnapshot {
  const [first, second] = scoredRounds(facts).map((round) => getSnapshot(db, round.id));
  if (!first) throw new DomainError('wrong-phase');
  const after = second?.body ?? null;
  return { ids: [first.id, ...(second ? [second.id] : [])], body: mergedSnapshot(first.body, after), first: first.body, second: after };
}
