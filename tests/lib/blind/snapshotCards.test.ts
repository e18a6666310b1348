import { expect, it } from 'vitest';
import { snapshotCards } from '#lib/blind/snapshotCards';
import type { EntryBody } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entries';
import { coOwner, fern, id, mentor, moss, snapshotOf } from '#tests/support/evaluationFacts';

const said = (body: EntryBody, subject = id('1a'), seatId = mentor.id) => ({
  seatId,
  subject,
  field: entryField(body),
  counter: 1,
  body,
});
const check = (key: string, answer: string | null, detail = ''): EntryBody => ({
  kind: 'check',
  check: key,
  answer,
  detail,
});
const none = { checks: [], asides: [], notes: [], choices: [], unfair: [] };
const told = (...answers: ReturnType<typeof said>[]) => snapshotCards(snapshotOf({ answers }), []);

it.each<[string, EntryBody, string]>([
  ['a score', { kind: 'score', criterion: 'neck', value: 1, cannotJudge: false }, id('1a')],
  ['manner', { kind: 'manner', manner: 'tense' }, id('1a')],
  ['an empty note', { kind: 'note', criterion: null, text: '' }, id('1a')],
  ['a fair day', { kind: 'fair', fair: true, why: '' }, id('1a')],
  ['a check taken back', check('bite', null), id('1a')],
  ['an impression of no showing of this round', { kind: 'overall', value: 4, cannotJudge: false }, id('0')],
  ['a note on no showing of this round', { kind: 'note', criterion: null, text: 'calm' }, id('0')],
  ['an unfair day of no showing of this round', { kind: 'fair', fair: false, why: '' }, id('0')],
  ['a check of no showing of this round', check('bite', 'level'), id('0')],
])('BL2: beside the scores %s says nothing', (_case, body, subject) => {
  expect(told(said(body, subject))).toEqual(none);
});

it('BL2: asides, notes, choices and unfair days are told by puppy and seat', () => {
  expect(
    told(
      said({ kind: 'overall', value: 4, cannotJudge: false }),
      said({ kind: 'free', criterion: 'ears', value: null, cannotJudge: true }, id('2a')),
      said({ kind: 'note', criterion: 'neck', text: 'long' }, id('1b')),
      said({ kind: 'fair', fair: false, why: 'tired' }, id('1b'), coOwner.id),
      said({ kind: 'choice', puppy: fern.id, reason: 'best', chance: 60 }, id('6')),
    ),
  ).toEqual({
    checks: [],
    asides: [
      { puppy: fern.id, seat: mentor.id, field: 'overall', value: 4 },
      { puppy: fern.id, seat: mentor.id, field: 'free:ears', value: null },
    ],
    notes: [{ puppy: moss.id, seat: mentor.id, criterion: 'neck', text: 'long' }],
    choices: [{ slotId: id('6'), seat: mentor.id, puppy: fern.id, reason: 'best', chance: 60 }],
    unfair: [{ puppy: moss.id, seat: coOwner.id, why: 'tired' }],
  });
});

it('SA1: checks are told in the order of puppies and of the catalogue, with who said what and whether they hold a keep', () => {
  const answers = [
    said(check('gait', 'lame', 'left hind')),
    said(check('bite', 'level'), id('2a')),
    said(check('gait', 'even'), id('1a'), coOwner.id),
    said(check('gait', 'even'), id('1b')),
    said(check('bite', 'scissor'), id('1b')),
  ];
  const hold = (puppyId: string, key: string, cleared: boolean) => ({
    puppyId,
    check: key,
    answers: [],
    said: [],
    stands: !cleared,
  });
  const holds = [hold(fern.id, 'gait', false), hold(fern.id, 'bite', true), hold(moss.id, 'eyes', false)];
  expect(snapshotCards(snapshotOf({ answers }), holds).checks).toEqual([
    { puppy: fern.id, check: 'bite', answers: [{ seat: mentor.id, answer: 'level', detail: '' }], holds: false },
    {
      puppy: fern.id,
      check: 'gait',
      answers: [
        { seat: mentor.id, answer: 'lame', detail: 'left hind' },
        { seat: coOwner.id, answer: 'even', detail: '' },
      ],
      holds: true,
    },
    { puppy: moss.id, check: 'bite', answers: [{ seat: mentor.id, answer: 'scissor', detail: '' }], holds: false },
    { puppy: moss.id, check: 'gait', answers: [{ seat: mentor.id, answer: 'even', detail: '' }], holds: false },
  ]);
});
