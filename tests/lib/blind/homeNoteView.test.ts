import { expect, it } from 'vitest';
import { homeNoteView } from '#lib/blind/homeNoteView';
import type { Snapshot } from '#lib/contract/snapshot';
import { homeNoteSchema } from '#lib/contract/homeNote';
import { checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { DomainError } from '#lib/errors';
import { coOwner, factsAt, fern, id, mentor, moss, snapshotOf, sorrel } from '#tests/support/evaluationFacts';

const facts = factsAt('sealed');
const decisions = [
  { slotId: id('6'), puppyId: fern.id, by: 'breeder', reason: 'quince', preference: false, followedPanel: true, at: 1 },
  {
    slotId: id('9'),
    puppyId: moss.id,
    by: 'co-owner',
    reason: 'quince',
    preference: true,
    followedPanel: false,
    at: 2,
  },
];
const holds = [
  {
    puppyId: moss.id,
    check: 'bite',
    answers: ['level (edge to edge)'],
    said: [
      { answer: 'look at 12 weeks', by: 'quince', at: 3, choice: { kind: 'again' as const, on: '2026-10-10' } },
      { answer: 'fine', by: 'quince', at: 4, choice: { kind: 'cleared' as const } },
    ],
    stands: false,
  },
];

const said = (subject: string, check: string, answer: string) =>
  ({
    seatId: mentor.id,
    subject,
    field: check,
    body: { kind: 'check', check, answer, detail: 'quince' },
  }) as unknown as Snapshot['answers'][number];
const snapshot = snapshotOf({
  showings: [
    { id: id('1a'), puppyId: fern.id },
    { id: id('1b'), puppyId: moss.id },
  ] as unknown as Snapshot['showings'],
  sheet: { ...facts.sheet, checks: ['bite', 'tail', 'gait', 'palate', 'testicles'] },
  answers: [
    said(id('1b'), 'bite', 'level'),
    said(id('1b'), 'tail', 'kink'),
    said(id('1b'), 'gait', 'not-examined'),
    said(id('1b'), 'testicles', 'both-felt'),
    said(id('1a'), 'bite', 'scissor'),
  ],
});
const litter = {
  puppies: [
    {
      id: moss.id,
      chipDigits: '4711',
      weights: [
        { weighedOn: '2026-09-01', grams: 6000 },
        { weighedOn: '2026-09-13', grams: 7000 },
      ],
    },
    { id: fern.id, chipDigits: '0815', weights: [] },
  ],
};
/** Whether the sheet asked for them or not. */
const unexaminedBut = (...made: readonly string[]) =>
  checkKeys.map((key) => checkByKey(key)?.name ?? key).filter((name) => !made.includes(name));
const written = { id: id('d'), puppyId: moss.id, check: null, choice: null, text: 'calm', by: 'the family', at: 5 };
const addenda = [
  { ...written, kind: 'behaviour' as const },
  { ...written, kind: 'behaviour' as const, puppyId: fern.id, text: 'quince' },
  { ...written, kind: 'home' as const, text: 'quince' },
  { ...written, kind: 'correction' as const, puppyId: null, text: 'quince' },
  { ...written, kind: 'correction' as const, text: 'the left ear', by: '' },
  {
    ...written,
    kind: 'veterinary' as const,
    check: 'tail',
    choice: { kind: 'stays' as const },
    text: 'a kink, no pain',
    by: 'quince',
  },
];
const sealed = {
  facts,
  snapshot,
  scored: snapshot,
  litter,
  decisions,
  holds,
  addenda,
  along: { contact: 'by the gate', picture: null },
};

it('BL2: there is no note for a puppy that is not here', () => {
  expect(() => homeNoteView(sealed, id('0'))).toThrow(new DomainError('not-found'));
});

it('BL2, SA3: a note tells its own puppy, what was found and when to look again; no score, no seat, no reason, no other puppy', () => {
  const note = homeNoteView(sealed, moss.id);
  expect(homeNoteSchema.safeParse(note).error).toBeUndefined();
  expect(note).toEqual({
    litterName: 'Autumn',
    breed: 'Leonberger',
    puppy: { name: 'Moss', sex: 'dog', collar: 'green', secondMark: 'left ear' },
    whelpedOn: '2026-07-18',
    seenOn: '2026-09-12',
    purpose: 'working',
    chipDigits: '4711',
    weight: { day: '2026-09-01', grams: 6000 },
    findings: [
      {
        check: 'Bite',
        answers: ['level (edge to edge)'],
        said: [
          { answer: 'look at 12 weeks', at: 3, choice: { kind: 'again', on: '2026-10-10' } },
          { answer: 'fine', at: 4, choice: { kind: 'cleared' } },
        ],
      },
      { check: 'Tail', answers: ['kink felt'], said: [] },
    ],
    normal: ['Testicles'],
    unexamined: unexaminedBut('Testicles', 'Bite', 'Tail'),
    toShow: [],
    strengths: [],
    contact: 'by the gate',
    picture: null,
    behaviour: [{ id: id('d'), text: 'calm', by: 'the family', at: 5 }],
    later: [
      { id: id('d'), check: null, choice: null, text: 'the left ear', at: 5 },
      { id: id('d'), check: 'Tail', choice: { kind: 'stays' }, text: 'a kink, no pain', at: 5 },
    ],
    lookAgain: [
      { key: 'twelve-weeks', day: '2026-10-10' },
      { key: 'six-months', day: '2027-01-18' },
      { key: 'twelve-months', day: '2027-07-18' },
      { key: 'two-years', day: '2028-07-18' },
    ],
  });
  const told = JSON.stringify(note);
  for (const secret of ['quince', fern.name, '0815', coOwner.label, mentor.label, id('9')])
    expect(told).not.toContain(secret);
});

it('BL2: a puppy that no place took has no purpose, and one of whom nothing was examined no findings', () => {
  expect(homeNoteView(sealed, sorrel.id)).toMatchObject({
    purpose: null,
    findings: [],
    normal: [],
    chipDigits: '',
    weight: null,
    unexamined: unexaminedBut('Testicles'),
  });
  expect(homeNoteView({ ...sealed, facts: { ...facts, slots: [] } }, moss.id).purpose).toBeNull();
});
