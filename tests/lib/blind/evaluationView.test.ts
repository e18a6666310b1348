import { expect, it } from 'vitest';
import { evaluationView } from '#lib/blind/evaluationView';
import { lookView } from '#lib/blind/lookView';
import { evaluationViewSchema } from '#lib/contract/evaluationView';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { usualPlan } from '#lib/contract/plan';
import { shortSheet } from '#lib/sheet/shippedSheets';

const id = (digit: string) => digit.repeat(32);
const seat = (digit: string, owner: boolean): SeatFacts => ({
  id: id(digit), label: owner ? 'breeder' : `seat ${digit}`, kind: 'hands', leads: false, picks: false, interest: '',
  position: owner ? 0 : 1, owner, organises: false, reads: false, joined: true, issued: owner ? 0 : 1, lockedAt: null, linkWaiting: false,
});

function factsIn(state: 'open' | 'closed' | 'revealed'): EvaluationFacts {
  const showings = [{ id: id('b'), puppyId: id('a'), place: 0, repeat: false }];
  return {
    id: id('e'), name: 'Eight weeks', litter: { id: id('1'), name: 'Autumn', breed: 'Leonberger', whelpedOn: '2026-07-18' }, sheetId: id('2'), sheet: shortSheet,
    heldOn: '2026-09-12', medium: 'table', callLink: '', callNumber: '', tableNote: '', phase: state === 'revealed' ? 'deciding' : 'scoring', order: [id('a')],
    puppies: [{ id: id('a'), name: 'Fern', sex: 'bitch', collar: 'blue', secondMark: '', withdrawn: false }],
    seats: [seat('3', true), seat('4', false)], slots: [], purposes: [{ key: 'keep', weights: { neck: 3 } }],
    round: { id: id('f'), occasion: 'first', medium: 'table', state, closedAt: null, revealedAt: null, showings, tableShowingId: id('b'), cells: null },
    plan: usualPlan, confirmedSeatIds: [], earlierRounds: [], openBatchId: null,
  };
}

const commitment = { seat: id('4'), hash: 'c'.repeat(64), by: 'device' } as const;
const beside = { versions: { all: 1, own: 2 }, head: { seq: 3, hash: 'd'.repeat(64) }, commitments: [commitment] };
const stranger = { owner: false, seatId: id('9'), leads: true };
const nobody = { owner: false, seatId: null, leads: false };
const member = { owner: false, seatId: id('4'), leads: false };
const owner = { owner: true, seatId: id('3'), leads: true };

it('BL2: a viewer who is neither the owner nor a seat here gets nothing, in any state', () => {
  for (const state of ['open', 'closed', 'revealed'] as const) {
    expect(evaluationView(factsIn(state), stranger, beside)).toBeNull();
    expect(evaluationView(factsIn(state), nobody, beside)).toBeNull();
  }
});

it('BL2: weights stay with the owner until reveal', () => {
  expect(evaluationView(factsIn('open'), member, beside)?.purposes).toBeNull();
  expect(evaluationView(factsIn('closed'), member, beside)?.purposes).toBeNull();
  expect(evaluationView(factsIn('open'), owner, beside)?.purposes).toHaveLength(1);
  expect(evaluationView(factsIn('revealed'), member, beside)?.purposes).toHaveLength(1);
});

it('BL2: the view is built field by field: what facts carry besides does not get out', () => {
  const facts = factsIn('open');
  const laden = { ...facts, secret: 'quince', puppies: facts.puppies.map((one) => ({ ...one, favourite: 'quince' })), seats: facts.seats.map((one) => ({ ...one, score: 'quince' })) };
  const view = evaluationView(laden, member, beside);
  expect(JSON.stringify(view)).not.toContain('quince');
  expect(evaluationViewSchema.safeParse(view).success).toBe(true);
});

it('BL2: a right that a request claims and its seat does not have is not believed', () => {
  expect(evaluationView(factsIn('open'), { ...member, leads: true }, beside)?.viewer.leads).toBe(false);
});

it('BL8: an open look shows its viewer’s own answer and nobody else’s, whatever it is given', () => {
  const look = { id: id('6'), batchId: id('7'), medium: 'table', slotId: id('5'), state: 'open', firstPuppyId: id('a'), secondPuppyId: id('b'), firstOnLeft: false, repeat: false } as const;
  const told = { position: 0, anonymous: false, mayAnswer: true, own: { choice: 'first', criterion: null }, answers: [{ seat: id('3'), choice: 'second', criterion: 'neck' }] } as const;
  expect(lookView(look, { ...told, answers: [...told.answers] })).toMatchObject({ own: { choice: 'first' }, answers: null, leftPuppyId: id('b') });
  expect(lookView({ ...look, state: 'closed' }, { ...told, answers: [...told.answers] }).answers).toBeNull();
  expect(lookView({ ...look, state: 'revealed' }, { ...told, answers: [...told.answers] })).toMatchObject({ mayAnswer: false, answers: [{ choice: 'second' }] });
});
