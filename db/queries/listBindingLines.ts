import { inArray } from 'drizzle-orm';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

export type BindingLine = { readonly evaluationId: string | null; readonly kind: string; readonly detail: string };

/** The lines of the whole record that bind a hash: commitments and snapshots. */
export function listBindingLines(db: Db): BindingLine[] {
  return db
    .select({ evaluationId: record.evaluationId, kind: record.kind, detail: record.body })
    .from(record)
    .where(inArray(record.kind, ['committed', 'committed-unlocked', 'round-revealed', 'words-removed']))
    .all();
}
