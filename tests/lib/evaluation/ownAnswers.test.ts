import { describe, expect, it } from 'vitest';
import type { Answer, EntryBody } from '#lib/contract/entry';
import { emptyOutbox, type OutboxRow, type RowStatus } from '#lib/evaluation/outboxState';
import { ownAnswers, saysSomething } from '#lib/evaluation/ownAnswers';
import { id } from '#tests/support/evaluationFacts';

const score = (value: number | null): EntryBody => ({ kind: 'score', criterion: 'neck', value, cannotJudge: false });
const answer = (counter: number, value: number): Answer => ({
  subject: id('1a'),
  field: 'score:neck',
  counter,
  body: score(value),
});
const row = (counter: number, value: number, status: RowStatus, roundId = 'r'): OutboxRow => ({
  entry: { id: String(counter), subject: id('1a'), counter, madeAt: 1, body: score(value) },
  evaluationId: 'e',
  roundId,
  seatId: 's',
  status,
  code: status === 'refused' ? 'out-of-scale' : null,
  kept: 'disk',
});
const read = (answers: readonly Answer[], rows: readonly OutboxRow[]) =>
  ownAnswers(answers, { ...emptyOutbox, rows }, 'r').get(`${id('1a')} score:neck`);

describe('what the person sees as said', () => {
  it.each([
    ['nothing, where nothing was said', [], [], undefined],
    ['nothing of another round', [], [row(9, 5, 'waiting', 'another')], undefined],
    ['nothing, where a newer edit stands that no read has shown', [], [row(5, 3, 'superseded')], undefined],
    ['the server’s answer', [answer(4, 2)], [], { body: score(2), counter: 4, place: 'server', code: null }],
    [
      'the server’s answer under an older edit',
      [answer(4, 2)],
      [row(3, 5, 'waiting')],
      { body: score(2), counter: 4, place: 'server', code: null },
    ],
    [
      'the server’s answer, where an edit lost to it',
      [answer(4, 2)],
      [row(5, 3, 'superseded')],
      { body: score(2), counter: 4, place: 'server', code: null },
    ],
    [
      'the server’s answer, marked, where the newest edit came late',
      [answer(4, 2)],
      [row(5, 3, 'late')],
      { body: score(2), counter: 5, place: 'late', code: null },
    ],
    [
      'the server’s answer, marked, where the newest edit was refused',
      [answer(4, 2)],
      [row(5, 3, 'refused')],
      { body: score(2), counter: 5, place: 'refused', code: 'out-of-scale' },
    ],
    [
      'nothing, marked, where the only edit was refused',
      [],
      [row(5, 3, 'refused')],
      { body: null, counter: 5, place: 'refused', code: 'out-of-scale' },
    ],
    [
      'an edit that waits',
      [answer(4, 2)],
      [row(5, 3, 'waiting')],
      { body: score(3), counter: 5, place: 'phone', code: null },
    ],
    [
      'an edit of the same counter that waits',
      [answer(5, 2)],
      [row(5, 3, 'waiting')],
      { body: score(3), counter: 5, place: 'phone', code: null },
    ],
    [
      'an edit that is acknowledged',
      [answer(4, 2)],
      [row(5, 3, 'applied')],
      { body: score(3), counter: 5, place: 'server', code: null },
    ],
    [
      'of several edits the newest, in whatever order they lie',
      [],
      [row(7, 6, 'waiting'), row(5, 3, 'applied'), row(6, 4, 'late')],
      { body: score(6), counter: 7, place: 'phone', code: null },
    ],
    [
      'the last that stands, under a refused one',
      [],
      [row(6, 9, 'refused'), row(5, 3, 'waiting')],
      { body: score(3), counter: 6, place: 'refused', code: 'out-of-scale' },
    ],
  ] as const)('LV2: %s', (_case, answers, rows, seen) => {
    expect(read(answers, rows)).toEqual(seen);
  });

  it('LV2: each register by itself', () => {
    const other: Answer = {
      subject: id('1b'),
      field: 'note',
      counter: 1,
      body: { kind: 'note', criterion: null, text: 'calm' },
    };
    expect([...ownAnswers([answer(4, 2), other], { ...emptyOutbox, rows: [row(5, 3, 'waiting')] }, 'r')]).toEqual([
      [`${id('1a')} score:neck`, { body: score(3), counter: 5, place: 'phone', code: null }],
      [`${id('1b')} note`, { body: other.body, counter: 1, place: 'server', code: null }],
    ]);
  });
});

it.each<[EntryBody | null, boolean]>([
  [null, false],
  [score(null), false],
  [score(0), true],
  [{ kind: 'score', criterion: 'neck', value: null, cannotJudge: true }, true],
  [{ kind: 'free', criterion: 'neck', value: null, cannotJudge: false }, false],
  [{ kind: 'free', criterion: 'neck', value: 1, cannotJudge: false }, true],
  [{ kind: 'overall', value: null, cannotJudge: false }, false],
  [{ kind: 'overall', value: null, cannotJudge: true }, true],
  [{ kind: 'check', check: 'bite', answer: null, detail: 'words' }, false],
  [{ kind: 'check', check: 'bite', answer: 'level', detail: '' }, true],
  [{ kind: 'note', criterion: null, text: '' }, false],
  [{ kind: 'note', criterion: null, text: 'calm' }, true],
  [{ kind: 'manner', manner: null }, false],
  [{ kind: 'manner', manner: 'tense' }, true],
  [{ kind: 'fair', fair: true, why: '' }, true],
  [{ kind: 'fair', fair: false, why: 'tired' }, true],
  [{ kind: 'choice', puppy: null, reason: 'words', chance: 50 }, false],
  [{ kind: 'choice', puppy: id('a'), reason: '', chance: null }, true],
])('SC3: %j says something: %s', (body, says) => {
  expect(saysSomething(body)).toBe(says);
});
