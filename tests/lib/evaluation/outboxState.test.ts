import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Answer, Entry } from '#lib/contract/entry';
import {
  absorbRead,
  addRows,
  emptyOutbox,
  failBatch,
  nextBatch,
  nextCounter,
  nextCounterUnread,
  nudge,
  putAway,
  registerOf,
  settleBatch,
  settleRows,
  startSending,
  stopSending,
  waitingRows,
  type OutboxRow,
  type OutboxState,
  type OwnRead,
} from '#lib/evaluation/outboxState';
import { ownAnswers } from '#lib/evaluation/ownAnswers';

const showing = 'a'.repeat(32);
const register = registerOf(showing, 'score:neck');
const idOf = (number: number) => number.toString(16).padStart(32, '0');

function rowOf(number: number, change: Partial<OutboxRow> = {}): OutboxRow {
  const entry: Entry = {
    id: idOf(number),
    subject: showing,
    counter: number,
    madeAt: number,
    body: { kind: 'score', criterion: 'neck', value: 1 + (number % 7), cannotJudge: false },
  };
  return {
    entry,
    evaluationId: 'e',
    roundId: 'r',
    seatId: 's',
    status: 'waiting',
    code: null,
    kept: 'disk',
    ...change,
  };
}

const readOf = (answers: readonly Answer[], change: Partial<OwnRead> = {}): OwnRead => ({
  roundId: 'r',
  answers,
  at: 1,
  round: 'open',
  later: false,
  ...change,
});
const withRows = (count: number): OutboxState =>
  addRows(
    emptyOutbox,
    Array.from({ length: count }, (_, index) => rowOf(index + 1)),
  );
const ids = (state: OutboxState, now = 0) => nextBatch(state, now).map((entry) => entry.id);
const sending = (state: OutboxState, now = 0) => startSending(state, ids(state, now), now);

describe('refusals first', () => {
  it('SC2: nothing is sent while its row is still being written, nor what was made after it', () => {
    const state = addRows(emptyOutbox, [rowOf(1), rowOf(2, { kept: 'pending' }), rowOf(3)]);
    expect(ids(state)).toEqual([idOf(1)]);
    expect(ids(settleRows(state, [idOf(2)], 'memory'))).toEqual([1, 2, 3].map(idOf));
  });

  it('SC2: no second call starts while one is under way', () => {
    expect(ids(sending(withRows(3)))).toEqual([]);
  });

  it('SC2: a waiting row cannot be put away, an answered one can', () => {
    const waiting = withRows(1);
    expect(putAway(waiting, idOf(1)).rows).toHaveLength(1);
    const refused = settleBatch(sending(waiting), [{ id: idOf(1), status: 'refused', code: 'out-of-scale' }]);
    expect(putAway(refused, idOf(1)).rows).toHaveLength(0);
  });

  it('SC2: one faulty entry is found and refused by itself, and the rest goes through', () => {
    let state = failBatch(sending(withRows(3)), { now: 0, code: 'bad-input', spread: 0 });
    expect(state.rows.every((row) => row.status === 'waiting')).toBe(true);
    const refused: string[] = [];
    for (let call = 0; call < 3; call += 1) {
      state = sending(state);
      const [id] = state.sending;
      expect(state.sending).toHaveLength(1);
      if (id === idOf(2)) {
        refused.push(id);
        state = failBatch(state, { now: 0, code: 'bad-input', spread: 0 });
      } else state = settleBatch(state, [{ id: id ?? '', status: 'applied', code: null }]);
    }
    expect(refused).toEqual([idOf(2)]);
    expect(state.rows.map((row) => row.status)).toEqual(['applied', 'refused', 'applied']);
  });
});

describe('two pages of one device', () => {
  it('SC2: a row that waits here takes over what another page learnt, and never the other way round', () => {
    const late = rowOf(1, { status: 'late' });
    expect(addRows(withRows(2), [late]).rows.map((row) => row.status)).toEqual(['late', 'waiting']);
    const answered = addRows(emptyOutbox, [late]);
    expect(addRows(answered, [rowOf(1)])).toBe(answered);
  });

  it('SC2: an edit made while the disk cannot be read is numbered above what it may hold', () => {
    const hidden = addRows(
      emptyOutbox,
      Array.from({ length: 400 }, (_, index) => rowOf(index + 1)),
    );
    expect(nextCounterUnread(emptyOutbox, [], register)).toBe(1001);
    expect(nextCounterUnread(emptyOutbox, [], register)).toBeGreaterThan(nextCounter(hidden, [], register));
  });
});

describe('rows that come and are written', () => {
  it('LV2: a device begins with nothing made, nothing sent and nothing doubted', () => {
    expect(emptyOutbox).toEqual({
      rows: [],
      held: [],
      doubted: [],
      readAt: 0,
      takesAgain: false,
      sending: [],
      unansweredSince: null,
      failures: 0,
      retryAt: 0,
      single: false,
      refusal: null,
    });
  });

  const applied = (number: number, change: Partial<OutboxRow> = {}) => rowOf(number, { status: 'applied', ...change });

  it('SC2: a row that is here already changes nothing, be it shown, waiting or sent again', () => {
    const state = addRows(emptyOutbox, [
      applied(1, { shown: true }),
      rowOf(2),
      rowOf(3, { again: true }),
      rowOf(4, { status: 'late' }),
    ]);
    expect([state.rows.map(({ entry }) => entry.id), state.held.map(({ entry }) => entry.id)]).toEqual([
      [2, 3, 4].map(idOf),
      [idOf(1)],
    ]);
    for (const known of [[], [rowOf(1)], [rowOf(2)], [applied(3)], [rowOf(3, { status: 'late' })], [applied(4)]])
      expect(addRows(state, known)).toBe(state);
  });

  it('SC6: a row that is sent again learns only from an answer to that', () => {
    const state = addRows(emptyOutbox, [rowOf(3, { again: true })]);
    const answered = addRows(state, [applied(3, { again: true })]);
    expect(answered.rows).toEqual([applied(3, { again: true })]);
  });

  it('SC2: what comes with a row that is known is added, in the order made, and nothing but that', () => {
    expect(addRows(addRows(emptyOutbox, [rowOf(1)]), [rowOf(1, { status: 'late' }), rowOf(2)]).rows).toEqual([
      rowOf(1, { status: 'late' }),
      rowOf(2),
    ]);
    expect(addRows(addRows(emptyOutbox, [rowOf(1)]), [rowOf(2)]).rows).toEqual([rowOf(1), rowOf(2)]);
  });

  it('SC6: a shown row is held only where it is acknowledged, and of a round and a register the newest', () => {
    const other = applied(1, { shown: true, roundId: 'another' });
    const state = addRows(emptyOutbox, [
      applied(2, { shown: true }),
      applied(3, { shown: true }),
      applied(1, { shown: true }),
      other,
      rowOf(4, { shown: true }),
      applied(5, { shown: false }),
    ]);
    expect([state.held, state.rows]).toEqual([
      [applied(3, { shown: true }), other],
      [rowOf(4, { shown: true }), applied(5, { shown: false })],
    ]);
  });

  it.each([
    ['pending', 'disk', 'disk'],
    ['pending', 'memory', 'memory'],
    ['memory', 'disk', 'disk'],
    ['memory', 'memory', 'memory'],
    ['disk', 'memory', 'disk'],
    ['disk', 'disk', 'disk'],
  ] as const)('SC2: a row that was %s and is said to be in %s is in %s', (kept, said, after) => {
    const state = addRows(emptyOutbox, [rowOf(1, { kept }), rowOf(2, { kept }), applied(3, { kept, shown: true })]);
    const settled = settleRows(state, [idOf(1), idOf(3)], said);
    expect([...settled.rows, ...settled.held].map((row) => row.kept)).toEqual([after, kept, after]);
  });

  it('LV2: what waits is what no answer has come to', () => {
    const state = addRows(emptyOutbox, [
      rowOf(1),
      applied(2),
      rowOf(3, { status: 'late' }),
      rowOf(4, { status: 'superseded' }),
      rowOf(5, { status: 'refused' }),
      rowOf(6, { again: true }),
    ]);
    expect(waitingRows(state).map(({ entry }) => entry.id)).toEqual([idOf(1), idOf(6)]);
    expect(nextBatch(state, 0).map(({ id }) => id)).toEqual([idOf(1)]);
    expect(nextBatch({ ...state, takesAgain: true }, 0)).toEqual([rowOf(1).entry, { ...rowOf(6).entry, again: true }]);
  });

  it('LV2: nothing is sent before its time, and at that time it is', () => {
    const state = { ...withRows(1), retryAt: 500 };
    expect([ids(state, 499), ids(state, 500)]).toEqual([[], [idOf(1)]]);
  });
});

describe('answers and failures', () => {
  const three = sending(withRows(3), 7);

  it('LV2: a call that ended in nothing leaves everything waiting for the next', () => {
    expect(stopSending(three)).toEqual({ ...three, sending: [] });
  });

  it('SC2: an answer settles what it names, once, and forgets what went wrong before', () => {
    const troubled = { ...three, failures: 3, retryAt: 900, refusal: 'busy', single: true };
    const outcomes = [
      { id: idOf(1), status: 'refused', code: 'out-of-scale' },
      { id: idOf(2), status: 'late', code: null },
    ] as const;
    const settled = settleBatch(troubled, outcomes);
    expect(settled).toEqual({
      ...emptyOutbox,
      single: true,
      rows: [rowOf(1, { status: 'refused', code: 'out-of-scale' }), rowOf(2, { status: 'late' }), rowOf(3)],
    });
    expect(settleBatch(settled, [{ id: idOf(2), status: 'applied', code: null }]).rows[1]?.status).toBe('late');
    expect(settleBatch(settled, [{ id: idOf(3), status: 'applied', code: null }]).single).toBe(false);
    expect(settleBatch({ ...settled, single: false }, []).single).toBe(false);
  });

  it('LV2: a refusal is an answer, silence is none', () => {
    expect(failBatch(three, { now: 10, code: 'not-signed-in', spread: 0 })).toEqual({
      ...three,
      sending: [],
      unansweredSince: null,
      failures: 1,
      retryAt: 1010,
      refusal: 'not-signed-in',
    });
    expect(failBatch(three, { now: 10, code: null, spread: 1 })).toEqual({
      ...three,
      sending: [],
      unansweredSince: 7,
      failures: 1,
      retryAt: 760,
      refusal: null,
    });
    expect(failBatch({ ...three, failures: 30 }, { now: 0, code: null, spread: 0.5 }).retryAt).toBe(26_250);
  });

  it('SC2: a faulty batch is taken apart without waiting, and a faulty entry alone refused', () => {
    expect(failBatch(three, { now: 10, code: 'bad-input', spread: 0 })).toEqual({
      ...three,
      sending: [],
      unansweredSince: null,
      single: true,
    });
    const alone = startSending(withRows(2), [idOf(2)], 7);
    expect(failBatch(alone, { now: 10, code: 'bad-input', spread: 0 })).toEqual({
      ...alone,
      sending: [],
      unansweredSince: null,
      rows: [rowOf(1), rowOf(2, { status: 'refused', code: 'bad-input' })],
    });
  });

  it('LV2: a nudge with nothing to wait for changes nothing', () => {
    expect(nudge(three)).toBe(three);
    expect(nudge({ ...three, retryAt: 5 })).toEqual(three);
  });

  it.each([
    ['waiting', 1],
    ['applied', 1],
    ['late', 0],
    ['superseded', 0],
    ['refused', 0],
  ] as const)('SC2, SC6: put away while %s, a row of two leaves %i of itself', (status, left) => {
    const state = addRows(emptyOutbox, [rowOf(1, { status }), rowOf(2, { status: 'late' })]);
    expect(putAway(state, idOf(1)).rows.map(({ entry }) => entry.id)).toEqual([...(left ? [idOf(1)] : []), idOf(2)]);
  });
});

describe('sending', () => {
  it('SC2: batches hold at most fifty, in the order made', () => {
    expect(ids(withRows(53))).toEqual(Array.from({ length: 50 }, (_, index) => idOf(index + 1)));
  });

  it('LV2: no answer waits 1, 2, 4 … at most 30 seconds, and a nudge tries at once', () => {
    let state = withRows(1);
    const delays: number[] = [];
    for (let failure = 0; failure < 7; failure += 1) {
      state = failBatch(sending(nudge(state)), { now: 0, code: null, spread: 0 });
      delays.push(state.retryAt);
      expect(ids(state, state.retryAt - 1)).toEqual([]);
    }
    expect(delays).toEqual([1000, 2000, 4000, 8000, 16_000, 30_000, 30_000]);
    expect(ids(nudge(state), 0)).toHaveLength(1);
  });

  it('LV2: the time without an answer counts from the first unanswered call', () => {
    const lost = failBatch(sending(withRows(1), 100), { now: 200, code: null, spread: 0 });
    const again = startSending(nudge(lost), [idOf(1)], 900);
    expect(again.unansweredSince).toBe(100);
    expect(settleBatch(again, [{ id: idOf(1), status: 'applied', code: null }]).unansweredSince).toBeNull();
  });
});

describe('what the person sees', () => {
  const answer = {
    subject: showing,
    field: 'score:neck',
    counter: 4,
    body: { kind: 'score' as const, criterion: 'neck', value: 2, cannotJudge: false },
  };

  it('SC5: a late or refused edit marks the score and never shows as its value', () => {
    for (const status of ['late', 'refused'] as const) {
      const state = addRows(emptyOutbox, [rowOf(5, { status, code: status === 'refused' ? 'out-of-scale' : null })]);
      expect(ownAnswers([answer], state, 'r').get(register)).toMatchObject({ body: answer.body, place: status });
    }
  });

  it('LV2: the highest counter shows, with where it is', () => {
    const waiting = addRows(emptyOutbox, [rowOf(5)]);
    expect(ownAnswers([answer], waiting, 'r').get(register)).toMatchObject({ counter: 5, place: 'phone' });
    expect(ownAnswers([{ ...answer, counter: 6 }], waiting, 'r').get(register)).toMatchObject({
      counter: 6,
      place: 'server',
    });
    expect(ownAnswers([], waiting, 'another round').size).toBe(0);
  });

  it('SC2: the next counter is above everything known here and on the server', () => {
    expect(nextCounter(emptyOutbox, [], register)).toBe(1);
    expect(nextCounter(emptyOutbox, [answer], register)).toBe(5);
    expect(nextCounter(addRows(emptyOutbox, [rowOf(9)]), [answer], registerOf(showing, 'score:ears'))).toBe(1);
    expect(nextCounter(addRows(emptyOutbox, [rowOf(9, { status: 'refused' })]), [answer], register)).toBe(10);
  });

  it('LV1: an acknowledged row shows until a read has it, then is held without showing', () => {
    const state = settleBatch(sending(addRows(emptyOutbox, [rowOf(5)])), [
      { id: idOf(5), status: 'applied', code: null },
    ]);
    expect(ownAnswers([answer], state, 'r').get(register)).toMatchObject({ counter: 5, place: 'server' });
    expect(absorbRead(state, readOf([answer])).rows).toHaveLength(1);
    const shown = absorbRead(state, readOf([{ ...answer, counter: 5 }]));
    expect([shown.rows, shown.held.map((row) => row.entry.id)]).toEqual([[], [idOf(5)]]);
  });
});

describe('a server that was restored from a backup', () => {
  const answerOf = (counter: number, field = 'score:neck'): Answer => ({
    subject: showing,
    field,
    counter,
    body: { kind: 'score', criterion: field.slice(6), value: 2, cannotJudge: false },
  });
  const acknowledged = (...counters: number[]): OutboxState =>
    absorbRead(
      addRows(
        emptyOutbox,
        counters.map((counter) => rowOf(counter, { status: 'applied' })),
      ),
      readOf([answerOf(Math.max(...counters))]),
    );

  it('SC6: what the server lacks twice, though it had acknowledged it, waits again under its own id and is marked so', () => {
    const once = absorbRead(acknowledged(5), readOf([], { at: 2 }));
    expect([once.rows, once.held.length, once.doubted]).toEqual([[], 1, [idOf(5)]]);
    // The same read laid again proves nothing more.
    expect(absorbRead(once, readOf([], { at: 2 })).rows).toEqual([]);
    const twice = absorbRead(once, readOf([], { at: 3 }));
    expect([twice.held, twice.doubted, twice.rows]).toEqual([
      [],
      [],
      [rowOf(5, { status: 'waiting', shown: false, again: true })],
    ]);
    expect(nextBatch(twice, 0)).toEqual([{ ...rowOf(5).entry, again: true }]);
    expect(ownAnswers([], twice, 'r').get(register)).toMatchObject({ place: 'phone' });
  });

  it('SC6: a read that was older than an acknowledgement makes nobody send anything again', () => {
    const once = absorbRead(acknowledged(5), readOf([], { at: 2 }));
    const shown = absorbRead(once, readOf([answerOf(5)], { at: 3 }));
    expect([shown.rows, shown.doubted, shown.held.length]).toEqual([[], [], 1]);
  });

  it('SC6, SC5: while its round is closed it is held back, where it could only come too late; after the reveal it is sent all the same', () => {
    const lacks = (round: OwnRead['round']) =>
      absorbRead(absorbRead(acknowledged(5), readOf([], { at: 2, round })), readOf([], { at: 3, round }));
    expect(nextBatch(lacks('shut'), 0)).toEqual([]);
    expect(nextBatch(absorbRead(lacks('shut'), readOf([], { at: 4, round: 'open' })), 0)).toHaveLength(1);
    expect(nextBatch(absorbRead(lacks('shut'), readOf([], { at: 4, round: 'revealed' })), 0)).toHaveLength(1);
  });

  it('SC6: what was acknowledged a second time and still shows to nobody here is let go, not sent for ever', () => {
    let state = absorbRead(absorbRead(acknowledged(5), readOf([], { at: 2 })), readOf([], { at: 3 }));
    state = settleBatch(sending(state), [{ id: idOf(5), status: 'applied', code: null }]);
    for (const at of [4, 5, 6]) state = absorbRead(state, readOf([], { at }));
    expect([state.rows, state.held, state.doubted]).toEqual([[], [], []]);
  });

  it('SC6: of each register the newest is held, so that a day of changes stays small, until the reveal or the next round', () => {
    const state = acknowledged(1, 2, 3);
    expect(state.held.map((row) => row.entry.counter)).toEqual([3]);
    for (const over of [
      readOf([answerOf(3)], { at: 2, round: 'revealed' }),
      readOf([], { at: 2, roundId: 'second', later: true }),
    ]) {
      const { held, rows } = absorbRead(state, over);
      expect([held, rows]).toEqual([[], []]);
    }
    // The reveal does not show that it was counted.
    expect(absorbRead(state, readOf([], { at: 2, round: 'revealed' })).held).toEqual(state.held);
  });

  it('SC6: a read is told by its time, and by it alone', () => {
    const read = absorbRead(emptyOutbox, readOf([], { at: 7 }));
    expect(read).toEqual({ ...emptyOutbox, readAt: 7, takesAgain: true });
    expect(absorbRead(read, readOf([], { at: 8, round: 'shut' }))).toEqual({ ...emptyOutbox, readAt: 8 });
  });

  it('SC6: a read changes no row that waits or was refused, and none that it shows a second time', () => {
    const rows = [rowOf(1), rowOf(2, { status: 'refused' }), rowOf(3, { status: 'late' })];
    const state = addRows(emptyOutbox, rows);
    for (const round of ['open', 'shut', 'revealed'] as const)
      expect(absorbRead(state, readOf([answerOf(9)], { at: 2, round, later: true })).rows).toBe(state.rows);
    const shown = acknowledged(5);
    expect(absorbRead(shown, readOf([answerOf(5)], { at: 2 })).held).toBe(shown.held);
  });

  it('SC6: what a read shows in a newer edit is shown; of another subject or field it is not', () => {
    const state = addRows(emptyOutbox, [rowOf(5, { status: 'applied' })]);
    expect(absorbRead(state, readOf([answerOf(6)])).held).toEqual([
      rowOf(5, { status: 'applied', shown: true, again: false }),
    ]);
    for (const answer of [answerOf(4), answerOf(6, 'score:ears'), { ...answerOf(6), subject: idOf(1) }])
      expect(absorbRead(state, readOf([answer])).rows).toEqual(state.rows);
  });

  it('SC6: a row of another round is neither shown nor let go by this one’s reveal, and goes with a later round', () => {
    const state = addRows(emptyOutbox, [rowOf(5, { status: 'applied', roundId: 'another' })]);
    expect(absorbRead(state, readOf([answerOf(5)], { at: 2, round: 'revealed' })).rows).toEqual(state.rows);
    expect(absorbRead(state, readOf([answerOf(5)], { at: 2, later: true })).rows).toEqual([]);
    expect(
      absorbRead(addRows(emptyOutbox, [rowOf(5, { status: 'applied' })]), readOf([answerOf(5)], { at: 2, later: true }))
        .held,
    ).toHaveLength(1);
  });

  it('SC6: what a server acknowledged a second time and shows is held as before', () => {
    const again = addRows(emptyOutbox, [rowOf(5, { status: 'applied', again: true, shown: false })]);
    expect(absorbRead(again, readOf([answerOf(5)], { at: 2 })).held).toEqual([
      rowOf(5, { status: 'applied', again: false, shown: true }),
    ]);
    const shown = { ...emptyOutbox, held: [rowOf(5, { status: 'applied', again: true, shown: true })] };
    expect(absorbRead(shown, readOf([answerOf(5)], { at: 2 })).held).toEqual([
      rowOf(5, { status: 'applied', again: false, shown: true }),
    ]);
  });

  it('SC6: what the server lacks is doubted from a fresh read on, acknowledged rows of any round alone', () => {
    const state = addRows(emptyOutbox, [
      rowOf(4),
      rowOf(5, { status: 'applied' }),
      rowOf(6, { status: 'applied', roundId: 'another' }),
    ]);
    const once = absorbRead(state, readOf([], { at: 2 }));
    expect(once.doubted).toEqual([idOf(5), idOf(6)]);
    expect(absorbRead(once, readOf([answerOf(5)], { at: 2 })).doubted).toEqual(once.doubted);
    const twice = absorbRead(once, readOf([answerOf(5)], { at: 3 }));
    expect([twice.doubted, twice.rows.map(({ entry, status, again }) => [entry.id, status, again])]).toEqual([
      [],
      [
        [idOf(4), 'waiting', undefined],
        [idOf(6), 'waiting', true],
      ],
    ]);
  });

  it('SC2: an edit is numbered above what is held, also when the server has forgotten it', () => {
    expect(nextCounter(acknowledged(5), [], register)).toBe(6);
  });
});

describe('a link that drops, repeats and stalls', () => {
  type Step = 'edit' | 'answered' | 'request lost' | 'answer lost' | 'restart';
  const steps = fc.array(fc.constantFrom<Step>('edit', 'answered', 'request lost', 'answer lost', 'restart'), {
    maxLength: 60,
  });

  it('SC2: whatever happens, the server ends with the last edit, once each, and nothing confirmed is missing there', () => {
    fc.assert(
      fc.property(steps, (plan) => {
        const server = new Map<string, Entry>();
        let inForce = 0;
        let state = emptyOutbox;
        let edits = 0;
        const call = (fate: Step) => {
          const batch = nextBatch(nudge(state), 0);
          if (batch.length === 0) return;
          state = startSending(
            nudge(state),
            batch.map((entry) => entry.id),
            0,
          );
          if (fate !== 'request lost') {
            for (const entry of batch) {
              server.set(entry.id, entry);
              inForce = Math.max(inForce, entry.counter);
            }
          }
          state =
            fate === 'answered'
              ? settleBatch(
                  state,
                  batch.map((entry) => ({ id: entry.id, status: 'applied', code: null })),
                )
              : failBatch(state, { now: 0, code: null, spread: 0 });
          for (const row of state.rows) if (row.status === 'applied') expect(server.has(row.entry.id)).toBe(true);
        };
        for (const step of plan) {
          if (step === 'edit') {
            edits += 1;
            expect(nextCounter(state, [], register)).toBe(edits);
            state = addRows(state, [rowOf(edits)]);
          } else if (step === 'restart') state = addRows(emptyOutbox, state.rows);
          else call(step);
        }
        call('answered');
        expect(server.size).toBe(edits);
        expect(inForce).toBe(edits);
        expect(nextBatch(state, 0)).toEqual([]);
      }),
    );
  });
});

describe('any order of edits, writes, answers, time-outs and wakings', () => {
  type Step = {
    readonly kind: 'edit' | 'write' | 'send' | 'answer' | 'time out' | 'refuse' | 'fault' | 'wake' | 'wait' | 'reopen';
    readonly pick: number;
  };
  const step = fc.record({
    kind: fc.constantFrom<Step['kind']>(
      'edit',
      'write',
      'send',
      'answer',
      'time out',
      'refuse',
      'fault',
      'wake',
      'wait',
      'reopen',
    ),
    pick: fc.nat({ max: 999 }),
  });
  const answers = ['applied', 'superseded', 'late', 'refused'] as const;

  function play(state: OutboxState, { kind, pick }: Step, world: { now: number; made: number }): OutboxState {
    const { sending: under } = state;
    switch (kind) {
      case 'edit':
        world.made += 1;
        return addRows(state, [rowOf(world.made, { kept: 'pending' })]);
      case 'write': {
        const row = state.rows[pick % Math.max(1, state.rows.length)];
        return row ? settleRows(state, [row.entry.id], pick % 2 === 0 ? 'disk' : 'memory') : state;
      }
      case 'send': {
        const batch = nextBatch(state, world.now);
        return batch.length > 0
          ? startSending(
              state,
              batch.map((entry) => entry.id),
              world.now,
            )
          : state;
      }
      case 'answer':
        return under.length > 0
          ? settleBatch(
              state,
              under.map((id, index) => ({ id, status: answers[(pick + index) % 4] ?? 'applied', code: null })),
            )
          : state;
      case 'time out':
      case 'refuse':
      case 'fault': {
        const code = kind === 'time out' ? null : kind === 'refuse' ? 'not-signed-in' : 'bad-input';
        return under.length > 0 ? failBatch(state, { now: world.now, code, spread: (pick % 10) / 10 }) : state;
      }
      case 'wake':
        return nudge(state);
      case 'wait':
        world.now += pick * 100;
        return state;
      case 'reopen':
        // What a page opened anew reads from the disk; what was only in memory is gone with the page, as it said.
        return addRows(
          emptyOutbox,
          state.rows.filter((row) => row.kept === 'disk'),
        );
    }
  }

  it('SC2, LV2: no entry that is on disk leaves before it is answered, none is sent before it is kept, and every wait ends', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 80 }), (plan) => {
        const world = { now: 0, made: 0 };
        let state = emptyOutbox;
        for (const one of plan) {
          const before = state;
          state = play(state, one, world);
          const after = new Map(state.rows.map((row) => [row.entry.id, row]));
          for (const row of before.rows.filter(({ kept }) => kept === 'disk'))
            expect(after.has(row.entry.id)).toBe(true);
          for (const row of before.rows.filter(({ status }) => status !== 'waiting'))
            expect(after.get(row.entry.id)?.status ?? row.status).toBe(row.status);
          const batch = nextBatch(state, world.now);
          expect(batch.length).toBeLessThanOrEqual(state.single ? 1 : 50);
          for (const { id } of batch)
            expect(after.get(id)).toMatchObject({
              status: 'waiting',
              kept: expect.stringMatching(/disk|memory/) as string,
            });
          expect(state.sending.length === 0 || batch.length === 0).toBe(true);
          expect(state.retryAt - world.now).toBeLessThanOrEqual(30_000);
          if (state.sending.length > 0) expect(state.unansweredSince).not.toBeNull();
        }
        const settled = state.rows.reduce(
          (soFar, row) => (row.kept === 'pending' ? settleRows(soFar, [row.entry.id], 'disk') : soFar),
          nudge({ ...state, sending: [] }),
        );
        const left = settled.rows.filter((row) => row.status === 'waiting').length;
        let drained = settled;
        for (let call = 0; call < left && drained.rows.some((row) => row.status === 'waiting'); call += 1)
          drained = settleBatch(
            sending(drained),
            nextBatch(drained, 0).map(({ id }) => ({ id, status: 'applied', code: null })),
          );
        expect(drained.rows.filter((row) => row.status === 'waiting')).toEqual([]);
      }),
    );
  });
});
