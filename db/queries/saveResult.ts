import type { Db } from '../open';
import { result } from '../schemaAfterReveal';

export function saveResult(db: Db, row: { readonly key: string; readonly body: string; readonly computedAt: number }): void {
  db.insert(result).values(row).onConflictDoNothing().run();
}
