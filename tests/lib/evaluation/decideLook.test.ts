import { describe, expect, it } from 'vitest';
import {
  type AnsweredLook,
  awaitedSeats,
  decideCloseLook,
  decideOpenLook,
  firstOnLeftFor,
  mayAnswerLook,
  pairsPerBatch,
  pairsProposed,
} from '#lib/evaluation/decideLook';
import {
  breeder,
  coOwner,
  factsAt,
  fern,
  id,
  mentor,
  moss,
  photographer,
  roundFacts,
  seatFacts,
  slotView,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

const [keep, working] = [id('6'), id('9')];
const revealed = factsAt('revealed');
const owner = { owner: true, seatId: breeder.id, leads: false };
const leader = { owner: false, seatId: mentor.id, leads: true };
const pair = (one: { id: string }, other: { id: string }) => ({ firstPuppyId: one.id, secondPuppyId: other.id });
const rue = { ...sorrel, id: id('d'), name: 'Rue', sex: 'dog' as const };

describe('a batch of looks opens', () => {
  const left = { ...revealed, puppies: [fern, { ...moss, withdrawn: true }, sorrel, rue] };

  it.each([
    ['who neither owns nor leads', revealed, { ...leader, leads: false }, keep, [pair(fern, moss)], 0, 'not-allowed'],
    ['before the reveal', factsAt('closed'), owner, keep, [pair(fern, moss)], 0, 'wrong-phase'],
    ['after sealing', factsAt('sealed'), owner, keep, [pair(fern, moss)], 0, 'wrong-phase'],
    ['for a place that is not here', revealed, owner, id('0'), [pair(fern, moss)], 0, 'not-found'],
    ['without a pair', revealed, owner, keep, [], 0, 'bad-input'],
    [
      'with a fourth pair',
      left,
      owner,
      keep,
      [pair(fern, sorrel), pair(fern, rue), pair(sorrel, rue), pair(fern, moss)],
      0,
      'bad-input',
    ],
    ['with one pair twice', revealed, owner, keep, [pair(fern, moss), pair(moss, fern)], 0, 'bad-input'],
    ['of a puppy with itself', revealed, owner, keep, [pair(fern, fern)], 0, 'bad-input'],
    ['beside an open batch', { ...revealed, openBatchId: id('0') }, owner, keep, [pair(fern, moss)], 0, 'still-open'],
    [
      'beside an open second round',
      { ...revealed, round: roundFacts({ occasion: 'second' }) },
      owner,
      keep,
      [pair(fern, moss)],
      0,
      'still-open',
    ],
    ['of a puppy that is not here', revealed, owner, keep, [pair(fern, { id: id('0') })], 0, 'not-found'],
    ['of a puppy that is not here, named first', revealed, owner, keep, [pair({ id: id('0') }, fern)], 0, 'not-found'],
    ['of a puppy that left', left, owner, keep, [pair(fern, moss)], 0, 'not-eligible'],
    ['of the other sex', revealed, owner, working, [pair(moss, fern)], 0, 'not-eligible'],
    [
      'with the second of two pairs at fault',
      left,
      owner,
      keep,
      [pair(fern, sorrel), pair(fern, moss)],
      0,
      'not-eligible',
    ],
    ['once as many as agreed are spent', revealed, owner, keep, [pair(fern, moss)], 3, 'looks-spent'],
    ['with a fault, and as many as agreed spent', revealed, owner, keep, [pair(fern, fern)], 3, 'bad-input'],
  ] as const)('BL8: is refused %s', (_case, facts, viewer, slotId, pairs, batches, code) => {
    expect(decideOpenLook(facts, viewer, { slotId, medium: 'table', pairs, batches })).toBe(code);
  });

  it.each([
    ['by the owner', revealed, owner, keep, [pair(fern, moss)], 0],
    ['by whoever leads, for the last batch agreed', revealed, leader, keep, [pair(fern, moss)], 2],
    ['with three pairs', left, owner, keep, [pair(fern, sorrel), pair(fern, rue), pair(sorrel, rue)], 0],
    ['of two dogs, for a dog', { ...revealed, puppies: [fern, moss, rue] }, owner, working, [pair(rue, moss)], 0],
    [
      'of two bitches, for a bitch',
      { ...revealed, slots: [slotView({ sex: 'bitch' })] },
      owner,
      keep,
      [pair(fern, sorrel)],
      0,
    ],
  ] as const)('BL8: opens %s', (_case, facts, viewer, slotId, pairs, batches) => {
    expect(decideOpenLook(facts, viewer, { slotId, medium: 'photographs', pairs, batches })).toBeNull();
  });

  it('BL8: a batch holds three pairs at most, and one is proposed', () => {
    expect([pairsPerBatch, pairsProposed]).toEqual([3, 1]);
  });
});

describe('who answers', () => {
  const interested = { ...coOwner, interest: 'wants a working dog' };

  it.each([
    ['a table person, at the table', tableHand, keep, 'table', false],
    ['a table person, from photographs', tableHand, keep, 'photographs', false],
    ['who sees photographs only, at the table', photographer, keep, 'table', false],
    ['the taker who declared an interest', interested, working, 'table', false],
    ['the taker who declared an interest, from photographs', interested, working, 'photographs', false],
    ['who declared an interest, about another’s place', interested, keep, 'table', true],
    ['who declared an interest, about a place that is gone', interested, id('0'), 'table', true],
    ['the taker without an interest', coOwner, working, 'table', true],
    ['the owner with an interest, about her place', { ...breeder, interest: 'a keep' }, keep, 'table', true],
    ['who has hands on', mentor, keep, 'table', true],
    ['who sees photographs, from photographs', photographer, keep, 'photographs', true],
    ['who has hands on, from photographs', mentor, keep, 'photographs', true],
  ] as const)('BL8: answers a look: %s', (_case, seat, slotId, medium, may) => {
    expect(mayAnswerLook(revealed, seat, { slotId, medium })).toBe(may);
  });

  const look = (answered: readonly string[], change: Partial<AnsweredLook> = {}): AnsweredLook => ({
    slotId: keep,
    medium: 'table',
    answered: new Set(answered),
    ...change,
  });

  it('BL8: awaited is every seat that holds a device, may answer and has not', () => {
    expect(awaitedSeats(revealed, [])).toEqual([]);
    expect(awaitedSeats(revealed, [look([])])).toEqual([breeder, mentor, coOwner]);
    expect(awaitedSeats(revealed, [look([breeder.id, coOwner.id])])).toEqual([mentor]);
    expect(awaitedSeats(revealed, [look([breeder.id, coOwner.id, mentor.id]), look([mentor.id])])).toEqual([
      breeder,
      coOwner,
    ]);
    expect(awaitedSeats({ ...revealed, seats: [seatFacts({ joined: false }), breeder] }, [look([])])).toEqual([
      breeder,
    ]);
  });

  it.each([
    [
      'who neither owns nor leads',
      revealed,
      { ...leader, leads: false },
      [look([breeder.id, mentor.id, coOwner.id])],
      'not-allowed',
    ],
    ['the owner with an answer of her own to give', revealed, owner, [look([mentor.id, coOwner.id])], 'own-card-open'],
    [
      'whoever leads, with an answer of its own to give',
      revealed,
      leader,
      [look([breeder.id, coOwner.id])],
      'own-card-open',
    ],
    [
      'an owner who answers nothing, while somebody is awaited',
      { ...revealed, seats: [{ ...breeder, kind: 'none' }, mentor] },
      owner,
      [look([])],
      'look-awaited',
    ],
    [
      'an owner without a seat, while somebody is awaited',
      { ...revealed, seats: [mentor] },
      { ...owner, seatId: null },
      [look([])],
      'look-awaited',
    ],
    [
      'an owner who answers nothing, once nobody is awaited',
      { ...revealed, seats: [{ ...breeder, kind: 'none' }, mentor] },
      owner,
      [look([mentor.id])],
      null,
    ],
    [
      'an owner without a seat, once nobody is awaited',
      { ...revealed, seats: [mentor] },
      { ...owner, seatId: null },
      [look([mentor.id])],
      null,
    ],
    ['the owner who has answered, while others are awaited', revealed, owner, [look([breeder.id])], null],
    ['whoever leads and has answered, while others are awaited', revealed, leader, [look([mentor.id])], null],
    [
      'a leader who answers one of two looks',
      { ...revealed, seats: [{ ...photographer, id: mentor.id }, coOwner] },
      leader,
      [look([]), look([mentor.id], { medium: 'photographs' })],
      null,
    ],
  ] as const)('BL8: closes a batch early: %s', (_case, facts, viewer, looks, code) => {
    expect(decideCloseLook(facts, viewer, looks)).toBe(code);
  });
});

it.each([
  ['table', 0, true],
  ['table', 1, true],
  ['photographs', 0, true],
  ['photographs', 1, false],
  ['photographs', 2, true],
  ['photographs', 3, false],
] as const)('BL8: who stands on the left, %s, seat %i: as drawn %s', (medium, position, asDrawn) => {
  expect(firstOnLeftFor({ firstOnLeft: true, medium }, position)).toBe(asDrawn);
  expect(firstOnLeftFor({ firstOnLeft: false, medium }, position)).toBe(!asDrawn);
});
