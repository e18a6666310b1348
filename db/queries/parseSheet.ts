import { sheetSchema, type Sheet } from '#lib/sheet/sheet';
import type { Db } from '../open';

const parsed = new WeakMap<Db, Map<string, Sheet>>();
/** Evaluations under way at once, each with its frozen sheet; beyond that the oldest goes. */
const most = 50;

/** A stored sheet; the same text is parsed once, because every write of a score asks for it. */
export function parseSheet(db: Db, body: string): Sheet {
  const known = parsed.get(db) ?? new Map<string, Sheet>();
  parsed.set(db, known);
  const sheet = known.get(body) ?? sheetSchema.parse(JSON.parse(body));
  known.delete(body);
  known.set(body, sheet);
  for (const oldest of known.keys()) {
    if (known.size <= most) break;
    known.delete(oldest);
  }
  return sheet;
}
