import type { Entry } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import { gradeOf } from '#lib/evaluation/gradeOf';
import type { Db } from '../open';
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

/** Keeps an entry for good and, when it is applied, puts it in force. */
export function saveEntry(db: Db, row: NewEntry): void {
  const { subject, counter, body, id, madeAt } = row.entry;
  const { roundId, seatId, deviceId, status, receivedAt } = row;
  const shared = { roundId, seatId, deviceId, subject, field: entryField(body), counter, body: JSON.stringify(body), value: gradeOf(body) };
  db.insert(entry).values({ ...shared, id, status, madeAt, receivedAt }).run();
  if (status !== 'applied') return;
  const set = { ...shared, entryId: id };
  db.insert(answer).values(set).onConflictDoUpdate({ target: [answer.roundId, answer.seatId, answer.subject, answer.field], set }).run();
}
