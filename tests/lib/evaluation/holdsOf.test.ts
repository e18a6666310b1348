import { expect, it } from 'vitest';
import type { EntryBody } from '#lib/contract/entry';
import { heldChecks, holdsOf } from '#lib/evaluation/holdsOf';
import { checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { coOwner, fern, id, mentor, moss, snapshotOf } from '#tests/support/evaluationFacts';

const said = (body: EntryBody, subject = id('1a'), seatId = mentor.id) => ({ seatId, subject, field: body.kind, counter: 1, body });
const check = (key: string, answer: string | null): EntryBody => ({ kind: 'check', check: key, answer, detail: '' });
const clearance = { puppyId: fern.id, check: 'bite', answer: 'fine', by: 'veterinary surgeon', at: 2 };

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
      expect([key, answer.key, holds]).toEqual([key, answer.key, named.includes(key) && (answer.outcome === 'watch' || answer.outcome === 'not-normal')]);
    }
  }
});

it('SA1: one seat’s word is enough, every different one is told once, and a second showing counts', () => {
  const answers = [said(check('eyes', 'wet'), id('2a')), said(check('eyes', 'wet'), id('1a'), coOwner.id), said(check('eyes', 'clear')), said(check('gait', 'even')), said(check('bite', 'undershot'), id('1b'))];
  expect(holdsOf(snapshotOf({ answers }), [])).toEqual([
    { puppyId: fern.id, check: 'eyes', answers: [checkByKey('eyes')?.answers[1]?.words, checkByKey('eyes')?.answers[0]?.words], cleared: null },
    { puppyId: moss.id, check: 'bite', answers: [checkByKey('bite')?.answers[4]?.words], cleared: null },
  ]);
});

it.each([
  ['a recorded answer to this check of this puppy clears it', clearance, { answer: 'fine', by: 'veterinary surgeon', at: 2 }],
  ['one to another check does not', { ...clearance, check: 'eyes' }, null],
  ['one about another puppy does not', { ...clearance, puppyId: moss.id }, null],
] as const)('SA1: a hold stands until it is answered: %s', (_case, recorded, cleared) => {
  const [hold] = holdsOf(snapshotOf({ answers: [said(check('bite', 'undershot'))] }), [recorded]);
  expect(hold?.cleared).toEqual(cleared);
});

it('SA1: held checks come once each in the order of the catalogue, and an answer that no check offers is a defect', () => {
  expect(heldChecks([])).toEqual([]);
  const answers = [{ check: 'gait', answer: 'lame' }, { check: 'bite', answer: 'level' }, { check: 'gait', answer: 'unsteady' }, { check: 'eyes', answer: 'clear' }] as const;
  expect(heldChecks(answers)).toEqual(['bite', 'gait']);
  expect(() => heldChecks([{ check: 'bite', answer: 'flat' }])).toThrow('check bite has no answer flat');
});
