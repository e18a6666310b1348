import { sql } from 'drizzle-orm';
import type { Entry } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import { gradeOf } from '#lib/evaluation/gradeOf';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { answer, entry } from '../schema';

type NewEntry = {
  readonly entry: Entry;
  readonly roundId: string;
  readonly seatId: string;
  readonly deviceId: string;
  /** As lib/evaluation/receiveEntry has found. */
  readonly status: 'applied' | 'superseded' | 'late';
  readonly receivedAt: number;
};

const { placeholder } = sql;
const shared = {
  roundId: placeholder('roundId'),
  seatId: placeholder('seatId'),
  deviceId: placeholder('deviceId'),
  subject: placeholder('subject'),
  field: placeholder('field'),
  counter: placeholder('counter'),
  body: placeholder('body'),
  value: placeholder('value'),
};
const insertEntry = prepareOnce((db) =>
  db
    .insert(entry)
    .values({ ...shared, id: placeholder('id'), status: placeholder('status'), madeAt: placeholder('madeAt'), receivedAt: placeholder('receivedAt') })
    .prepare(),
);
const putInForce = prepareOnce((db) =>
  db
    .insert(answer)
    .values({ ...shared, entryId: placeholder('id') })
    .onConflictDoUpdate({
      target: [answer.roundId, answer.seatId, answer.subject, answer.field],
      set: {
        counter: sql`excluded.counter`, deviceId: sql`excluded.device_id`, entryId: sql`excluded.entry_id`,
        body: sql`excluded.body`, value: sql`excluded.value`,
      },
    })
    .prepare(),
);

/** Keeps an entry for good and, when it is applied, puts it in force. */
export function saveEntry(db: Db, { entry: { body, ...made }, ...arrived }: NewEntry): void {
  const row = { ...made, ...arrived, field: entryField(body), body: JSON.stringify(body), value: gradeOf(body) };
  insertEntry(db).run(row);
  if (arrived.status === 'applied') putInForce(db).run(row);
}
