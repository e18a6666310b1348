import { expect, it } from 'vitest';
import type { HoldChoice } from '#lib/contract/decisionView';
import type { EntryBody } from '#lib/contract/entry';
import { choiceWords, decideChoice, heldChecks, holdsOf } from '#lib/evaluation/holdsOf';
import { checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { coOwner, fern, id, mentor, moss, snapshotOf } from '#tests/support/evaluationFacts';

const said = (body: EntryBody, subject = id('1a'), seatId = mentor.id) => ({
  seatId,
  subject,
  field: body.kind,
  counter: 1,
  body,
});
const check = (key: string, answer: string | null): EntryBody => ({ kind: 'check', check: key, answer, detail: '' });
const said2 = { answer: 'fine', by: 'veterinary surgeon', at: 2 };
const recorded = (choice: HoldChoice | null = { kind: 'cleared' }) => ({
  puppyId: fern.id,
  check: 'bite',
  ...said2,
  choice,
});

it.each([
  ['a check taken back', check('bite', null), id('1a')],
  ['a check that is not in the catalogue', check('charm', 'level'), id('1a')],
  ['a showing that is not of this round', check('bite', 'undershot'), id('0')],
  ['a score', { kind: 'score', criterion: 'bite', value: 1, cannotJudge: false }, id('1a')],
  ['a kink of the tail, which holds no keep', check('tail', 'kink'), id('1a')],
  ['what is normal', check('bite', 'scissor'), id('1a')],
  ['what nobody examined', check('bite', 'not-examined'), id('1a')],
] as const)('SA1: no hold comes from %s', (_case, body, subject) => {
  expect(holdsOf(snapshotOf({ answers: [said(body, subject)] }), [])).toEqual([]);
});

it('SA1: of all answers to all checks, exactly watch and not normal on the eight named checks hold a keep', () => {
  const named = ['breathing', 'eyes', 'skin', 'gait', 'bite', 'palate', 'testicles', 'navel-and-groin'];
  for (const key of checkKeys) {
    for (const answer of checkByKey(key)?.answers ?? []) {
      const holds = holdsOf(snapshotOf({ answers: [said(check(key, answer.key))] }), []).length > 0;
      expect([key, answer.key, holds]).toEqual([
        key,
        answer.key,
        named.includes(key) && (answer.outcome === 'watch' || answer.outcome === 'not-normal'),
      ]);
    }
  }
});

it('SA1: one seat’s word is enough, every different one is told once, and a second showing counts', () => {
  const answers = [
    said(check('eyes', 'wet'), id('2a')),
    said(check('eyes', 'wet'), id('1a'), coOwner.id),
    said(check('eyes', 'clear')),
    said(check('gait', 'even')),
    said(check('bite', 'undershot'), id('1b')),
  ];
  expect(holdsOf(snapshotOf({ answers }), [])).toEqual([
    {
      puppyId: fern.id,
      check: 'eyes',
      answers: [checkByKey('eyes')?.answers[1]?.words, checkByKey('eyes')?.answers[0]?.words],
      said: [],
      stands: true,
    },
    { puppyId: moss.id, check: 'bite', answers: [checkByKey('bite')?.answers[4]?.words], said: [], stands: true },
  ]);
});

it.each([
  ['nobody was asked', [], true],
  ['an answer to another check cleared that', [{ ...recorded(), check: 'eyes' }], true],
  ['an answer about another puppy cleared that', [{ ...recorded(), puppyId: moss.id }], true],
  ['the answer was that it stays', [recorded({ kind: 'stays' })], true],
  ['it is to be looked at again, on a day that is long past', [recorded({ kind: 'again', on: '2020-01-01' })], true],
  ['it was cleared and then not', [recorded(), recorded({ kind: 'stays' })], true],
  ['it was cleared', [recorded()], false],
  [
    'it stayed and was cleared later',
    [recorded({ kind: 'stays' }), recorded({ kind: 'again', on: '2026-10-10' }), recorded()],
    false,
  ],
  ['it was answered before there was a choice', [recorded(null)], false],
] as const)('SA1: whether a hold stands when %s', (_case, answers, stands) => {
  const [hold] = holdsOf(snapshotOf({ answers: [said(check('bite', 'undershot'))] }), answers);
  const own = answers.filter((one) => one.check === 'bite' && one.puppyId === fern.id);
  expect(hold).toMatchObject({ stands, said: own.map(({ choice }) => ({ ...said2, choice })) });
});

const day = Date.parse('2026-10-10T00:00:00Z');
const hour = 3_600_000;

it.each([
  ['the day before', day + 36 * hour, '2026-10-09', 'day-past'],
  ['a day that is over everywhere', day + 36 * hour, '2026-10-10', 'day-past'],
  ['a day that is not over in the far west', day + 36 * hour - 1, '2026-10-10', null],
  ['today', day + 12 * hour, '2026-10-10', null],
  ['a day ahead', day, '2027-10-10', null],
] as const)('SA1: to look again on %s', (_case, at, on, code) => {
  expect(decideChoice({ kind: 'again', on }, at)).toBe(code);
  expect([decideChoice({ kind: 'cleared' }, at), decideChoice({ kind: 'stays' }, at)]).toEqual([null, null]);
});

it('SA1: each choice has words of its own, and an answer from before there was one says so', () => {
  const words = [null, { kind: 'cleared' }, { kind: 'again', on: '2026-10-10' }, { kind: 'stays' }].map((choice) =>
    choiceWords(choice as HoldChoice | null),
  );
  expect(words).toEqual([
    'recorded before a choice was asked for; it let the hold fall',
    'cleared',
    'look again on 2026-10-10',
    'the hold stays',
  ]);
  expect(choiceWords({ kind: 'again', on: '2026-10-10' }, () => 'a Saturday')).toBe('look again on a Saturday');
});

it('SA1: held checks come once each in the order of the catalogue, and an answer that no check offers is a defect', () => {
  expect(heldChecks([])).toEqual([]);
  const answers = [
    { check: 'gait', answer: 'lame' },
    { check: 'bite', answer: 'level' },
    { check: 'gait', answer: 'unsteady' },
    { check: 'eyes', answer: 'clear' },
  ] as const;
  expect(heldChecks(answers)).toEqual(['bite', 'gait']);
  expect(() => heldChecks([{ check: 'bite', answer: 'flat' }])).toThrow('check bite has no answer flat');
});
