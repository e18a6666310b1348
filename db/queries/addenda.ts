import { asc, eq } from 'drizzle-orm';
import type { Addendum, AddendumInput } from '#lib/contract/addendum';
import type { Db } from '../open';
import { addendum } from '../schema/decisions';
import { choiceColumns, choiceOf } from './decisions';

type NewAddendum = {
  readonly id: string;
  readonly evaluationId: string;
  readonly at: number;
  readonly input: AddendumInput;
};

/** Appends what the owner wrote; the same id again is refused by the table (SC2). */
export function insertAddendum(db: Db, { id, evaluationId, at, input }: NewAddendum): void {
  const { kind, puppyId, text } = input;
  const by = 'by' in input ? input.by : '';
  const answer = input.kind === 'veterinary' ? { check: input.check, ...choiceColumns(input.choice) } : {};
  db.insert(addendum)
    .values({ id, evaluationId, kind, puppyId, text, by, at, ...answer })
    .run();
}

/** What the owner wrote beside a result, in the order in which it came. */
export function listAddenda(db: Db, evaluationId: string): Addendum[] {
  const rows = db
    .select()
    .from(addendum)
    .where(eq(addendum.evaluationId, evaluationId))
    .orderBy(asc(addendum.seq))
    .all();
  return rows.map(({ id, kind, puppyId, check, text, by, at, ...row }) => ({
    id,
    kind,
    puppyId,
    check,
    choice: choiceOf(row),
    text,
    by,
    at,
  }));
}

/** Whether something was written under this id. */
export function isAddendum(db: Db, id: string): boolean {
  return db.select({ id: addendum.id }).from(addendum).where(eq(addendum.id, id)).get() !== undefined;
}
