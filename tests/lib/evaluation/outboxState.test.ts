import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '#lib/contract/entry';
import {
  absorbedIds, addRows, emptyOutbox, failBatch, nextBatch, nextCounter, nudge, putAway, registerOf, settleBatch, settleRow,
  startSending, type OutboxRow, type OutboxState,
} from '#lib/evaluation/outboxState';
import { ownAnswers } from '#lib/evaluation/ownAnswers';

const showing = 'a'.repeat(32);
const register = registerOf(showing, 'score:neck');
const idOf = (number: number) => number.toString(16).padStart(32, '0');

function rowOf(number: number, change: Partial<OutboxRow> = {}): OutboxRow {
  const entry: Entry = { id: idOf(number), subject: showing, counter: number, madeAt: number, body: { kind: 'score', criterion: 'neck', value: 1 + (number % 7), cannotJudge: false } };
  return { entry, evaluationId: 'e', roundId: 'r', seatId: 's', status: 'waiting', code: null, kept: 'disk', ...change };
}

const withRows = (count: number): OutboxState => addRows(emptyOutbox, Array.from({ length: count }, (_, index) => rowOf(index + 1)));
const ids = (state: OutboxState, now = 0) => nextBatch(state, now).map((entry) => entry.id);
const sending = (state: OutboxState, now = 0) => startSending(state, ids(state, now), now);

describe('refusals first', () => {
  it('SC2: nothing is sent while its row is still being written, nor what was made after it', () => {
    const state = addRows(emptyOutbox, [rowOf(1), rowOf(2, { kept: 'pending' }), rowOf(3)]);
    expect(ids(state)).toEqual([idOf(1)]);
    expect(ids(settleRow(state, idOf(2), 'memory'))).toEqual([1, 2, 3].map(idOf));
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
  const answer = { subject: showing, field: 'score:neck', counter: 4, body: { kind: 'score' as const, criterion: 'neck', value: 2, cannotJudge: false } };

  it('SC5: a late or refused edit marks the score and never shows as its value', () => {
    for (const status of ['late', 'refused'] as const) {
      const state = addRows(emptyOutbox, [rowOf(5, { status, code: status === 'refused' ? 'out-of-scale' : null })]);
      expect(ownAnswers([answer], state, 'r').get(register)).toMatchObject({ body: answer.body, place: status });
    }
  });

  it('LV2: the highest counter shows, with where it is', () => {
    const waiting = addRows(emptyOutbox, [rowOf(5)]);
    expect(ownAnswers([answer], waiting, 'r').get(register)).toMatchObject({ counter: 5, place: 'phone' });
    expect(ownAnswers([{ ...answer, counter: 6 }], waiting, 'r').get(register)).toMatchObject({ counter: 6, place: 'server' });
    expect(ownAnswers([], waiting, 'another round').size).toBe(0);
  });

  it('SC2: the next counter is above everything known here and on the server', () => {
    expect(nextCounter(emptyOutbox, [], register)).toBe(1);
    expect(nextCounter(emptyOutbox, [answer], register)).toBe(5);
    expect(nextCounter(addRows(emptyOutbox, [rowOf(9, { status: 'refused' })]), [answer], register)).toBe(10);
  });

  it('LV1: an acknowledged row shows until a read has it, then goes', () => {
    const state = settleBatch(sending(addRows(emptyOutbox, [rowOf(5)])), [{ id: idOf(5), status: 'applied', code: null }]);
    expect(ownAnswers([answer], state, 'r').get(register)).toMatchObject({ counter: 5, place: 'server' });
    expect(absorbedIds(state, [answer])).toEqual([]);
    expect(absorbedIds(state, [{ ...answer, counter: 5 }])).toEqual([idOf(5)]);
  });
});

describe('a link that drops, repeats and stalls', () => {
  type Step = 'edit' | 'answered' | 'request lost' | 'answer lost' | 'restart';
  const steps = fc.array(fc.constantFrom<Step>('edit', 'answered', 'request lost', 'answer lost', 'restart'), { maxLength: 60 });

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
          state = startSending(nudge(state), batch.map((entry) => entry.id), 0);
          if (fate !== 'request lost') {
            for (const entry of batch) {
              server.set(entry.id, entry);
              inForce = Math.max(inForce, entry.counter);
            }
          }
          state = fate === 'answered'
            ? settleBatch(state, batch.map((entry) => ({ id: entry.id, status: 'applied', code: null })))
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
