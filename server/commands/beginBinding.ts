import { inTransaction } from '#db/inTransaction';
import { appendRecord } from '#db/queries/appendRecord';
import { listUnbound } from '#db/queries/listUnbound';
import type { Db } from '#db/open';
import type { Runtime } from '../runtime';

/**
 * From this line on the record binds what it tells of by hash. Within the chain, so that nobody can later call an
 * evaluation older than it is, to be excused from what its lines lack.
 */
export function beginBinding(db: Db, { evaluationId, at }: { readonly evaluationId: string; readonly at: number }): void {
  appendRecord(db, { evaluationId, at, actor: 'the server', kind: 'binding-begun', detail: '' });
}

/** At the start: evaluations that an earlier version made begin to be bound now; what their lines say from before stays unbound. */
export function beginBindingOfAll({ db, clock }: Pick<Runtime, 'db' | 'clock'>): void {
  inTransaction(db, () => {
    for (const evaluationId of listUnbound(db)) beginBinding(db, { evaluationId, at: clock.now() });
  });
}
