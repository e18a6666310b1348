import { afterEach, beforeEach, expect, it } from 'vitest';
import { open } from '#db/open';
import { getVersion } from '#db/queries/versions';
import { saveEntry } from '#db/queries/entries';
import { submitEntries } from '#server/commands/cards';
import { writeEvaluation } from '#server/write/writeEvaluation';
import { createHub, type Announcement } from '#server/live/hub';
import type { Runtime } from '#server/runtime';
import type { Entry } from '#lib/contract/entry';
import { dataOf } from '#tests/support/dataOf';
import { askerOf, dayRuntime, makeDay, type Day } from '#tests/support/makeDay';

let runtime: Runtime;
let day: Day;
let heard: (Announcement & { readonly inTransaction: boolean })[];

beforeEach(() => {
  const hub = createHub();
  runtime = dayRuntime(open(':memory:'), { hub });
  day = makeDay(runtime, { seats: 1, devicesPerSeat: 1 });
  heard = [];
  hub.subscribe((announcement) => heard.push({ ...announcement, inTransaction: runtime.db.$client.inTransaction }));
});

afterEach(() => runtime.db.$client.close());

function oneEntry(): Entry {
  const criterion = day.facts.sheet.criteria.find((one) => !one.twoSided)?.key ?? '';
  return {
    id: 'a'.repeat(32),
    subject: day.facts.round?.showings[0]?.id ?? '',
    counter: 1,
    madeAt: 1,
    body: { kind: 'score', criterion, cannotJudge: false, value: 5 },
  };
}

const from = () => ({ seatId: day.devices[0]?.seatId ?? '', deviceId: day.devices[0]?.id ?? '' });
const submit = (entries: readonly Entry[]) =>
  submitEntries(askerOf(runtime, day, { id: from().deviceId, seatId: from().seatId }), {
    evaluationId: day.facts.id,
    entries,
  });

it('SC4: no bell rings for a write that was rolled back, and nothing of it is left', () => {
  const before = dataOf(runtime.db);
  expect(() =>
    writeEvaluation(runtime, day.facts.id, ({ touchAll, touchSeat, note }) => {
      saveEntry(runtime.db, {
        entry: oneEntry(),
        roundId: day.facts.round?.id ?? '',
        seatId: from().seatId,
        deviceId: from().deviceId,
        status: 'applied',
        receivedAt: 1,
      });
      touchAll();
      touchSeat(from().seatId);
      note('a test', 'set-up-saved');
      throw new Error('the disk said no');
    }),
  ).toThrow('the disk said no');
  expect(heard).toEqual([]);
  expect(dataOf(runtime.db)).toBe(before);
});

it('SC4: a commit that the store refuses rings no bell either', () => {
  runtime.db.$client.exec(
    "CREATE TEMP TRIGGER refuses BEFORE INSERT ON main.answer BEGIN SELECT RAISE(ROLLBACK, 'refused late'); END",
  );
  const before = dataOf(runtime.db);
  expect(() => submit([oneEntry()])).toThrow();
  expect(heard).toEqual([]);
  expect(dataOf(runtime.db)).toBe(before);
});

it('SC2, SC4: entry, answer and version are one transaction, and the bell rings after it', () => {
  expect(submit([oneEntry()])).toEqual([{ id: oneEntry().id, status: 'applied', code: null }]);
  const version = getVersion(runtime.db, day.facts.id, `seat:${from().seatId}`);
  expect(version).toBe(1);
  expect(heard).toEqual([
    expect.objectContaining({
      seat: { id: from().seatId, owner: true },
      inTransaction: false,
      event: expect.objectContaining({ version, audience: 'own' }) as unknown,
    }),
  ]);
});

it('SC2: a repeat changes nothing and rings nothing', () => {
  submit([oneEntry()]);
  const before = dataOf(runtime.db);
  heard = [];
  expect(submit([oneEntry(), oneEntry()]).map(({ status }) => status)).toEqual(['applied', 'applied']);
  expect(dataOf(runtime.db)).toBe(before);
  expect(heard).toEqual([]);
});
