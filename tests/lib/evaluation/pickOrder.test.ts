import { describe, expect, it } from 'vitest';
import type { Decision, Hold } from '#lib/contract/decisionView';
import {
  decidePick,
  decideSeal,
  heldKeeps,
  mayDecideNow,
  mayPick,
  nextSlotId,
  partiesOf,
  pickOrderWording,
  slotEligibility,
  unconfirmedParties,
} from '#lib/evaluation/pickOrder';
import {
  breeder,
  coOwner,
  factsAt,
  fern,
  id,
  mentor,
  moss,
  roundFacts,
  slotView,
  sorrel,
} from '#tests/support/evaluationFacts';

// The first place is the breeder's keep for either sex, the second the co-owner's working dog.
const [keep, working] = [id('6'), id('9')];
const revealed = factsAt('revealed');
const decided = (slotId: string, puppyId: string | null): Decision => ({
  slotId,
  puppyId,
  by: 'breeder',
  reason: '',
  preference: false,
  followedPanel: null,
  at: 1,
});
const hold = (puppyId: string, stands = true): Hold => ({
  puppyId,
  check: 'bite',
  answers: ['undershot'],
  said: [],
  stands,
});

it('SC3: picks are made in order: the next place is the first without a decision', () => {
  expect(nextSlotId(revealed, [])).toBe(keep);
  expect(nextSlotId(revealed, [decided(working, moss.id)])).toBe(keep);
  expect(nextSlotId(revealed, [decided(keep, fern.id)])).toBe(working);
  expect(nextSlotId(revealed, [decided(keep, null), decided(working, null)])).toBeNull();
});

it.each([
  ['a stranger', { owner: false, seatId: id('0'), leads: true }, working, false],
  ['a viewer without a seat', { owner: false, seatId: null, leads: true }, working, false],
  ['a seat without the right, for its own place', { owner: false, seatId: mentor.id, leads: false }, id('c'), false],
  ['a seat with the right, for another’s place', { owner: false, seatId: coOwner.id, leads: false }, keep, false],
  ['a seat with the right, for no place', { owner: false, seatId: coOwner.id, leads: false }, id('0'), false],
  ['a seat with the right, for its own place', { owner: false, seatId: coOwner.id, leads: false }, working, true],
  ['the owner without a seat, for any place', { owner: true, seatId: null, leads: false }, working, true],
] as const)('SC3: enters a pick: %s', (_case, viewer, slotId, may) => {
  const facts = { ...revealed, slots: [...revealed.slots, slotView({ id: id('c'), seatId: mentor.id })] };
  expect(mayPick(facts, viewer, slotId)).toBe(may);
});

describe('a pick', () => {
  it.each([
    ['while preparing', factsAt('preparing'), keep, fern.id, [], [], 'wrong-phase'],
    ['while a round is open', factsAt('open'), keep, fern.id, [], [], 'wrong-phase'],
    ['after sealing', factsAt('sealed'), keep, fern.id, [], [], 'wrong-phase'],
    [
      'while a second round is open',
      { ...revealed, round: roundFacts({ occasion: 'second' }) },
      keep,
      fern.id,
      [],
      [],
      'still-open',
    ],
    ['while a batch of looks is open', { ...revealed, openBatchId: id('0') }, keep, fern.id, [], [], 'still-open'],
    ['for a place that is not here', revealed, id('0'), fern.id, [], [], 'not-found'],
    ['before its turn', revealed, working, moss.id, [], [], 'wrong-phase'],
    ['for a place already decided', revealed, keep, fern.id, [decided(keep, moss.id)], [], 'wrong-phase'],
    ['of a puppy that is not here', revealed, keep, id('0'), [], [], 'not-found'],
    [
      'of a puppy that left',
      { ...revealed, puppies: [{ ...fern, withdrawn: true }] },
      keep,
      fern.id,
      [],
      [],
      'not-eligible',
    ],
    ['of a puppy that is taken', revealed, working, moss.id, [decided(keep, moss.id)], [], 'not-eligible'],
    ['of the other sex', revealed, working, fern.id, [decided(keep, sorrel.id)], [], 'not-eligible'],
    ['of a held puppy for a keep', revealed, keep, fern.id, [], [hold(fern.id)], 'on-hold'],
    [
      'of a puppy held twice and cleared once',
      revealed,
      keep,
      fern.id,
      [],
      [hold(fern.id, false), hold(fern.id)],
      'on-hold',
    ],
  ] as const)('SA1: is refused %s', (_case, facts, slotId, puppyId, decisions, holds, code) => {
    expect(
      decidePick(
        facts,
        { slotId, puppyId, unexamined: [] },
        { decisions, holds, unexamined: [{ puppyId: moss.id, checks: ['bite'] }] },
      ),
    ).toBe(code);
  });

  it('SA1: is refused for a keep whose picker does not name every check that nobody made on that puppy, and taken once all are named', () => {
    const open = { decisions: [], holds: [], unexamined: [{ puppyId: fern.id, checks: ['bite', 'gait'] }] };
    for (const unexamined of [[], ['bite'], ['gait', 'eyes']])
      expect(decidePick(revealed, { slotId: keep, puppyId: fern.id, unexamined }, open)).toBe('unexamined');
    expect(decidePick(revealed, { slotId: keep, puppyId: fern.id, unexamined: ['gait', 'bite'] }, open)).toBeNull();
    expect(decidePick(revealed, { slotId: keep, puppyId: null, unexamined: [] }, open)).toBeNull();
  });

  it.each([
    ['a place left empty', keep, null, [], [hold(fern.id)]],
    ['for the first place', keep, fern.id, [], []],
    ['beside another’s hold', keep, fern.id, [], [hold(moss.id)]],
    ['after the hold is cleared', keep, fern.id, [], [hold(fern.id, false)]],
    ['a held puppy for a working home', working, moss.id, [decided(keep, fern.id)], [hold(moss.id)]],
    ['after a place was left empty', working, moss.id, [decided(keep, null)], []],
  ] as const)('SA1: is taken: %s', (_case, slotId, puppyId, decisions, holds) => {
    expect(
      decidePick(
        revealed,
        { slotId, puppyId, unexamined: [] },
        { decisions, holds, unexamined: [{ puppyId: moss.id, checks: ['bite'] }] },
      ),
    ).toBeNull();
  });
});

it.each([
  ['a round not revealed', factsAt('closed'), [], 'wrong-phase', 'wrong-phase'],
  ['a record sealed already', factsAt('sealed'), [], 'wrong-phase', 'wrong-phase'],
  [
    'a batch of looks open',
    { ...revealed, openBatchId: id('0') },
    [decided(keep, null), decided(working, null)],
    'still-open',
    'still-open',
  ],
  ['a place undecided', revealed, [decided(keep, fern.id)], null, 'still-open'],
  ['every place decided', revealed, [decided(keep, fern.id), decided(working, null)], null, null],
] as const)('BL8: deciding and sealing with %s', (_case, facts, decisions, deciding, sealing) => {
  expect(mayDecideNow(facts)).toBe(deciding);
  expect(decideSeal(facts, { decisions, holds: [] })).toBe(sealing);
});

it.each([
  ['no hold', [], null],
  ['a hold on the puppy of the keep', [hold(fern.id)], 'on-hold'],
  ['that hold cleared', [hold(fern.id, false)], null],
  ['one cleared and another standing', [hold(fern.id, false), hold(fern.id)], 'on-hold'],
  ['a hold on the puppy of the working home', [hold(moss.id)], null],
  ['a hold on a puppy that nobody picked', [hold(sorrel.id)], null],
] as const)('SA1: with every place picked and %s the record is sealed or not', (_case, holds, sealing) => {
  const decisions = [decided(keep, fern.id), decided(working, moss.id)];
  expect(decideSeal(revealed, { decisions, holds })).toBe(sealing);
  expect(heldKeeps(revealed, { decisions, holds })).toEqual(sealing === null ? [] : [keep]);
});

it.each([
  ['one that left', slotView({}), [{ ...fern, withdrawn: true }, moss], [], [moss.id]],
  ['bitches, for a dog', slotView({ sex: 'dog' }), [fern, moss, sorrel], [], [moss.id]],
  ['dogs, for a bitch', slotView({ sex: 'bitch' }), [fern, moss, sorrel], [], [fern.id, sorrel.id]],
  ['held ones, for a keep', slotView({}), [fern, moss, sorrel], [fern.id], [moss.id, sorrel.id]],
  ['nobody, for a working home', slotView({ purpose: 'working' }), [fern, moss], [fern.id], [fern.id, moss.id]],
  ['nobody, for a companion home', slotView({ purpose: 'companion' }), [fern], [fern.id], [fern.id]],
] as const)('SA1: a place does not take %s', (_case, slot, puppies, held, taken) => {
  expect(slotEligibility(slot, puppies, new Set(held))).toEqual(taken);
});

describe('the agreement', () => {
  const one = slotView({ seatId: coOwner.id, condition: 'if sound', byWhen: 'Friday', ifFails: 'the next takes it' });
  const wording = (change: Partial<typeof one>, seats = [breeder, coOwner]) =>
    pickOrderWording({ slots: [{ ...one, ...change }], seats });

  it.each([
    { taker: 'another' },
    { seatId: breeder.id },
    { seatId: null },
    { purpose: 'working' },
    { sex: 'dog' },
    { condition: '' },
    { byWhen: 'Monday' },
    { ifFails: '' },
  ] as const)('SC5: other terms are other words: %j', (change) => {
    expect(wording(change)).not.toBe(wording({}));
  });

  it('SC5: order and labels are words, ids are not; a seat that is gone is nobody', () => {
    const two = slotView({ taker: 'second' });
    expect(pickOrderWording({ slots: [one, two], seats: [] })).not.toBe(
      pickOrderWording({ slots: [two, one], seats: [] }),
    );
    expect(wording({}, [{ ...coOwner, label: 'aunt' }])).not.toBe(wording({}));
    expect(wording({ id: id('0'), seatId: id('5') }, [{ ...coOwner, id: id('5') }])).toBe(wording({}));
    expect(wording({ seatId: id('0') })).toBe(wording({ seatId: null }));
    expect(wording({})).toBe('[["breeder","co-owner","keep","any","if sound","Friday","the next takes it"]]');
  });

  it('SC5: every seat that picks has to agree, save the owner’s', () => {
    const picking = { ...mentor, picks: true };
    const facts = factsAt('preparing', {
      seats: [{ ...breeder, picks: true }, picking, coOwner],
      confirmedSeatIds: [mentor.id],
    });
    expect(partiesOf(factsAt('preparing', { seats: [breeder, mentor] }))).toEqual([]);
    expect(partiesOf(facts)).toEqual([picking, coOwner]);
    expect(unconfirmedParties(facts)).toEqual([coOwner]);
    expect(unconfirmedParties({ ...facts, confirmedSeatIds: [coOwner.id, mentor.id] })).toEqual([]);
  });
});

it.each(['revealed', 'sealed'] as const)(
  'BL7: nothing is decided or sealed of an evaluation that came in a file: %s',
  (stage) => {
    const facts = factsAt(stage, { imported: { at: 9, writtenAt: 5, head: { seq: 3, hash: 'd'.repeat(64) } } });
    expect([mayDecideNow(facts), decideSeal(facts, { decisions: [], holds: [] })]).toEqual(['imported', 'imported']);
  },
);
