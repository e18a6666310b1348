import { describe, expect, it } from 'vitest';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import {
  markReader,
  mayAddPhoto,
  mayChangeShotList,
  mayChooseKeeper,
  mayDiscuss,
  readsOnly,
  rightsFit,
  seatOf,
  seatState,
  seesCodes,
  viewerOf,
} from '#lib/evaluation/seats';
import {
  breeder,
  coOwner,
  factsAt,
  id,
  locked,
  mentor,
  photographer,
  roundFacts,
  seatFacts,
  tableHand,
} from '#tests/support/evaluationFacts';

const organiser = seatFacts({ id: id('5'), kind: 'none', organises: true });
const reader = seatFacts({ id: id('5'), kind: 'none', reads: true });
const leader = seatFacts({ id: id('5'), kind: 'none', leads: true });
const picker = seatFacts({ id: id('5'), kind: 'none', picks: true });
const facts = factsAt('open');
const imported = { at: 9, writtenAt: 5, head: { seq: 3, hash: 'd'.repeat(64) } };
const nobody = { owner: false, seatId: null, leads: false };
const asker = (seat: SeatFacts) => ({ viewer: { owner: seat.owner, seatId: seat.id, leads: seat.leads }, seat });
const ownerWithoutSeat = { viewer: { owner: true, seatId: null, leads: true }, seat: null };
const stranger = { viewer: nobody, seat: null };

describe('who holds a seat', () => {
  it.each([
    ['a stranger’s device', { owner: false, seatId: id('0') }, null],
    ['a device without a seat', { owner: false, seatId: null }, null],
    ['a seat’s device', { owner: false, seatId: mentor.id }, mentor],
    ['the owner’s device, whatever seat it names', { owner: true, seatId: mentor.id }, breeder],
  ])('BL9: %s', (_case, holder, seat) => {
    expect(seatOf(facts, holder)).toBe(seat);
  });

  it('BL9: the owner holds no seat where none is hers', () => {
    expect(seatOf({ ...facts, seats: [mentor] }, { owner: true, seatId: mentor.id })).toBeNull();
  });

  it('BL9: nobody holds a seat of an evaluation that came in a file, the owner of this server least of all', () => {
    const there = { ...facts, imported };
    for (const holder of [
      { owner: true, seatId: null },
      { owner: false, seatId: mentor.id },
    ])
      expect(seatOf(there, holder)).toBeNull();
  });

  it.each([
    ['nobody has opened its link', seatFacts({ joined: false }), 'invited'],
    ['a device holds it', mentor, 'joined'],
    ['its card is locked', locked(mentor), 'locked'],
    ['its card is locked at the first moment there is', locked(mentor, 0), 'locked'],
  ] as const)('LV2: a seat’s state when %s', (_case, seat, state) => {
    expect(seatState(seat)).toBe(state);
  });
});

describe('what a viewer may do', () => {
  it.each([
    ['nobody', false, null, { owner: false, seatId: null, leads: false, organises: false, reads: false }],
    [
      'a table person without a right',
      false,
      tableHand,
      { owner: false, seatId: tableHand.id, leads: false, organises: false, reads: false },
    ],
    [
      'one who leads the table only',
      false,
      leader,
      { owner: false, seatId: leader.id, leads: true, organises: false, reads: false },
    ],
    ['a reader', false, reader, { owner: false, seatId: reader.id, leads: false, organises: false, reads: true }],
    [
      'one who picks only',
      false,
      picker,
      { owner: false, seatId: picker.id, leads: false, organises: false, reads: true },
    ],
    ['one who scores', false, mentor, { owner: false, seatId: mentor.id, leads: false, organises: false, reads: true }],
    [
      'an organiser, who leads as well',
      false,
      organiser,
      { owner: false, seatId: organiser.id, leads: true, organises: true, reads: true },
    ],
    ['the owner without a seat', true, null, { owner: true, seatId: null, leads: true, organises: false, reads: true }],
    [
      'the owner, whatever her seat says',
      true,
      { ...organiser, owner: true },
      { owner: true, seatId: organiser.id, leads: true, organises: false, reads: true },
    ],
  ] as const)('BL2: %s', (_case, owner, seat, viewer) => {
    expect(viewerOf(owner, seat)).toEqual(viewer);
  });

  it.each([
    ['scores and organises', { kind: 'hands', organises: true, reads: false }, false],
    ['scores and reads', { kind: 'live', organises: false, reads: true }, false],
    ['scores from photographs and does both', { kind: 'photographs', organises: true, reads: true }, false],
    ['scores', { kind: 'hands', organises: false, reads: false }, true],
    ['scores, rights left out', { kind: 'hands' }, true],
    ['organises and reads without scoring', { kind: 'none', organises: true, reads: true }, true],
  ] as const)('BL1: rights of a seat that %s fit', (_case, rights, fit) => {
    expect(rightsFit(rights)).toBe(fit);
  });

  it.each([
    ['a table person without a right', tableHand, false],
    ['a reader', reader, false],
    ['one who leads the table only', leader, false],
    ['one who scores', mentor, true],
    ['one who picks', picker, true],
    ['an organiser', organiser, true],
    ['the owner who scores nothing', seatFacts({ owner: true, kind: 'none' }), true],
  ])('BL2: takes part in the talk: %s', (_case, seat, may) => {
    expect(mayDiscuss(seat)).toBe(may);
  });
});

describe('a seat that was issued again', () => {
  const again = seatFacts({ issued: 2 });

  it.each([
    ['issued again, while the round is open', again, 'open', 'device'],
    ['issued again, while it is closed', again, 'closed', 'device'],
    ['issued again, after the reveal', again, 'revealed', null],
    ['issued once', mentor, 'open', null],
    ['the owner’s own, never issued', breeder, 'open', null],
  ] as const)('BL9: a seat reads only what its device made: %s', (_case, seat, state, only) => {
    expect(readsOnly(state, seat, 'device')).toBe(only);
  });

  it.each([
    ['a viewer without a seat', null, { seatId: null, onlyDevice: null }],
    ['a viewer whose seat is not here', id('0'), { seatId: null, onlyDevice: null }],
    ['a seat issued once', breeder.id, { seatId: breeder.id, onlyDevice: null }],
    ['a seat issued again', again.id, { seatId: again.id, onlyDevice: 'device' }],
  ])('BL9: marks, notes and hands read as its own by %s', (_case, seatId, reads) => {
    expect(markReader({ seats: [breeder, again] }, { seatId }, 'device')).toEqual(reads);
  });
});

describe('codes for names', () => {
  const plan = { ...facts.plan, identity: 'coded' as const };
  const coded = factsAt('open', { medium: 'photographs', plan });
  const revealed = factsAt('revealed', { medium: 'photographs', plan });
  const seat = { owner: false, seatId: photographer.id, leads: false };

  it.each([
    ['before the round', factsAt('preparing', { medium: 'photographs', plan }), seat, true],
    ['from photographs, where agreed', coded, seat, true],
    ['while the round is closed', factsAt('closed', { medium: 'photographs', plan }), seat, true],
    ['a viewer without a seat', coded, nobody, true],
    ['the owner', coded, { ...seat, owner: true }, false],
    ['who leads', coded, { ...seat, leads: true }, false],
    ['at the table', { ...coded, medium: 'table' }, seat, false],
    ['where names were agreed', factsAt('open', { medium: 'photographs' }), seat, false],
    ['after the reveal', revealed, seat, false],
    [
      'in a second round',
      { ...revealed, round: roundFacts({ occasion: 'second' }), earlierRounds: [roundFacts({ state: 'revealed' })] },
      seat,
      false,
    ],
    [
      'after a practice round alone',
      { ...revealed, round: roundFacts({ state: 'revealed', occasion: 'practice' }) },
      seat,
      true,
    ],
  ] as const)('BL2: puppies go by codes: %s', (_case, at, viewer, codes) => {
    expect(seesCodes(at, viewer)).toBe(codes);
  });

  it('BL2: who sees codes brings no picture', () => {
    expect(mayAddPhoto(coded, asker(photographer))).toBe(false);
    expect(mayAddPhoto(revealed, asker(photographer))).toBe(true);
  });
});

describe('pictures', () => {
  const sealed = factsAt('sealed');

  it.each([
    ['a stranger', facts, stranger, false],
    ['a table person without a right', facts, asker(tableHand), false],
    ['a reader', facts, asker(reader), false],
    ['one who picks only', facts, asker(picker), false],
    ['one who scores, after sealing', sealed, asker(mentor), false],
    ['the owner, after sealing', sealed, ownerWithoutSeat, false],
    ['one who scores', facts, asker(coOwner), true],
    ['one who leads', facts, asker(leader), true],
    ['an organiser', facts, asker(organiser), true],
    ['the owner without a seat', facts, ownerWithoutSeat, true],
    ['one who scores, after the reveal', factsAt('revealed'), asker(mentor), true],
  ] as const)('BL2: brings a picture: %s', (_case, at, who, may) => {
    expect(mayAddPhoto(at, who)).toBe(may);
  });

  it.each([
    ['a table person without a right', facts, asker(tableHand), false],
    ['one who scores, after the reveal', factsAt('revealed'), asker(mentor), false],
    ['the owner, after the reveal', factsAt('revealed'), ownerWithoutSeat, false],
    [
      'one who scores, in a second round',
      factsAt('open', { earlierRounds: [roundFacts({ state: 'revealed' })] }),
      asker(mentor),
      false,
    ],
    ['one who scores, before the round', factsAt('preparing'), asker(mentor), true],
    ['one who scores, while the round is closed', factsAt('closed'), asker(mentor), true],
    [
      'one who scores, after practice',
      factsAt('open', { earlierRounds: [roundFacts({ state: 'revealed', occasion: 'practice' })] }),
      asker(mentor),
      true,
    ],
  ] as const)('BL1: chooses the picture to look at: %s', (_case, at: EvaluationFacts, who, may) => {
    expect(mayChooseKeeper(at, who)).toBe(may);
  });

  it.each([
    ['a stranger', facts, stranger, false],
    ['an organiser', facts, asker(organiser), false],
    ['the owner, after sealing', sealed, ownerWithoutSeat, false],
    ['the owner', facts, ownerWithoutSeat, true],
    ['the owner, after the reveal', factsAt('revealed'), ownerWithoutSeat, true],
  ] as const)('BL2: changes the list of wanted views: %s', (_case, at, who, may) => {
    expect(mayChangeShotList(at, who)).toBe(may);
  });
});

it('BL7: nobody adds a picture to an evaluation that came in a file, or changes the views wanted of it', () => {
  const there = factsAt('revealed', { imported });
  expect([
    mayAddPhoto(there, ownerWithoutSeat),
    mayChooseKeeper(there, ownerWithoutSeat),
    mayChangeShotList(there, ownerWithoutSeat),
  ]).toEqual([false, false, false]);
});
