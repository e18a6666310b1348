import { expect, it } from 'vitest';
import { homeNoteView } from '#lib/blind/homeNoteView';
import { homeNoteSchema } from '#lib/contract/homeNote';
import { DomainError } from '#lib/errors';
import { coOwner, factsAt, fern, id, moss, sorrel } from '#tests/support/evaluationFacts';

const facts = factsAt('sealed');
const decisions = [
  { slotId: id('6'), puppyId: fern.id, by: 'breeder', reason: 'quince', preference: false, followedPanel: true, at: 1 },
  { slotId: id('9'), puppyId: moss.id, by: 'co-owner', reason: 'quince', preference: true, followedPanel: false, at: 2 },
];
const holds = [
  { puppyId: moss.id, check: 'bite', answers: ['level'], cleared: { answer: 'fine', by: 'quince', at: 3 } },
  { puppyId: moss.id, check: 'charm', answers: ['a', 'b'], cleared: null },
  { puppyId: fern.id, check: 'eyes', answers: ['wet'], cleared: null },
];

it('BL2: there is no note for a puppy that is not here', () => {
  expect(() => homeNoteView({ facts, decisions, holds }, id('0'))).toThrow(new DomainError('not-found'));
});

it('BL2, SA3: a note tells its own puppy, what was found and when to look again; no score, no seat, no reason, no other puppy', () => {
  const note = homeNoteView({ facts, decisions, holds }, moss.id);
  expect(homeNoteSchema.safeParse(note).error).toBeUndefined();
  expect(note).toEqual({
    litterName: 'Autumn', breed: 'Leonberger', puppy: { name: 'Moss', sex: 'dog', collar: 'green', secondMark: 'left ear' }, whelpedOn: '2026-07-18', seenOn: '2026-09-12', purpose: 'working',
    findings: [{ check: 'Bite', answers: ['level'], answered: 'fine' }, { check: 'charm', answers: ['a', 'b'], answered: null }],
    lookAgain: [{ key: 'twelve-weeks', day: '2026-10-10' }, { key: 'six-months', day: '2027-01-18' }, { key: 'twelve-months', day: '2027-07-18' }, { key: 'two-years', day: '2028-07-18' }],
  });
  const told = JSON.stringify(note);
  for (const secret of ['quince', fern.name, 'Eyes', coOwner.label, id('9')]) expect(told).not.toContain(secret);
});

it('BL2: a puppy that no place took has no purpose, and one without a hold no findings', () => {
  expect(homeNoteView({ facts, decisions, holds }, sorrel.id)).toMatchObject({ purpose: null, findings: [] });
  expect(homeNoteView({ facts: { ...facts, slots: [] }, decisions, holds }, moss.id).purpose).toBeNull();
});
