import { expect, it } from 'vitest';
import { seatFace } from '#lib/blind/evaluationView';
import { setupView } from '#lib/blind/setupView';
import { setupViewSchema } from '#lib/contract/evaluationView';
import { breeder, coOwner, factsAt, factsStages, fern, id, mentor, moss, sorrel } from '#tests/support/evaluationFacts';

it.each(factsStages)('BL2: the set-up page is built field by field: %s', (stage) => {
  const facts = factsAt(stage, {
    seats: [breeder, { ...mentor, linkWaiting: true, issued: 2 }, { ...coOwner, paper: true }],
    confirmedSeatIds: [coOwner.id],
    order: [moss.id, fern.id, sorrel.id],
  });
  const quince = { quince: 'quince' };
  const all = <T>(list: readonly T[]) => list.map((one) => ({ ...one, ...quince }));
  const laden = {
    ...facts,
    ...quince,
    puppies: all(facts.puppies),
    seats: all(facts.seats),
    slots: all(facts.slots),
    purposes: all(facts.purposes),
    plan: { ...facts.plan, ...quince },
  };
  const view = setupView(laden);
  expect(setupViewSchema.safeParse(view).error).toBeUndefined();
  expect(view).toEqual({
    id: id('e'),
    litterId: id('7'),
    litterName: 'Autumn',
    whelpedOn: '2026-07-18',
    sheetId: id('8'),
    phase: facts.phase,
    name: 'Eight weeks',
    heldOn: '2026-09-12',
    medium: 'table',
    callLink: 'https://call.example/autumn',
    callNumber: '01 23',
    tableNote: 'back door',
    sheet: facts.sheet,
    puppies: [fern, moss, sorrel],
    seats: [
      { ...seatFace(breeder), linkWaiting: false, paper: false },
      { ...seatFace(mentor), linkWaiting: true, paper: false },
      { ...seatFace(coOwner), linkWaiting: false, paper: true },
    ],
    purposes: facts.purposes,
    slots: facts.slots,
    plan: facts.plan,
    parties: [{ seat: coOwner.id, confirmed: true }],
    order: [moss.id, fern.id, sorrel.id],
  });
});
