import { saveShotList } from '#db/queries/saveShotList';
import { DomainError } from '#lib/errors';
import type { ShotKey } from '#lib/photo/shot';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

/** Which views are wanted of each puppy, in this order. */
export function saveShots(runtime: Runtime, evaluationId: string, wanted: readonly ShotKey[]): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll }) => {
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    saveShotList(runtime.db, facts.id, wanted);
    touchAll();
  });
}
