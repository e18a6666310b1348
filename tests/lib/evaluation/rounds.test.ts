import { describe, expect, it } from 'vitest';
import type { Decision } from '#lib/contract/decisionView';
import { usualPlan } from '#lib/contract/plan';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import {
  decideClose,
  decideConfirm,
  decideLeave,
  decideLock,
  decideMoveTable,
  decideOpenRound,
  decideOpenSecond,
  decideReopen,
  decideReveal,
  decideWithdrawal,
  everySeatLocked,
  lessonSeats,
  scoredRounds,
  tooManyForLesson,
} from '#lib/evaluation/rounds';
import {
  breeder,
  coOwner,
  factsAt,
  type FactsStage,
  fern,
  id,
  locked,
  mentor,
  moss,
  photographer,
  roundFacts,
  seatFacts,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

const ownerWatches = seatFacts({ ...breeder, kind: 'none' });
const learner = seatFacts({ id: id('3'), label: 'learner', position: 2 });
const second = seatFacts({ id: id('4'), label: 'second mentor', position: 3 });
const lessonPlan = { ...usualPlan, kind: 'lesson' as const, learnerSeatId: learner.id };
const lessonOf = (seats: EvaluationFacts['seats'], stage: FactsStage = 'open') =>
  factsAt(stage, {
    plan: lessonPlan,
    seats,
    round:
      stage === 'preparing' ? null : roundFacts({ occasion: 'lesson', state: stage === 'closed' ? 'closed' : 'open' }),
  });

describe('a round opens', () => {
  const agreed = { confirmedSeatIds: [coOwner.id] };
  const allOut = [fern, moss].map((puppy) => ({ ...puppy, withdrawn: true }));

  it.each([
    ['a second time', factsAt('open', agreed), false, 'wrong-phase'],
    ['after the reveal', factsAt('revealed', agreed), true, 'wrong-phase'],
    ['with nobody to score', factsAt('preparing', { ...agreed, seats: [ownerWatches, tableHand] }), true, 'bad-input'],
    ['with no puppy', factsAt('preparing', { ...agreed, puppies: [] }), true, 'bad-input'],
    ['with every puppy withdrawn', factsAt('preparing', { ...agreed, puppies: allOut }), true, 'bad-input'],
    ['before every party has agreed', factsAt('preparing'), false, 'not-confirmed'],
    [
      'in a lesson with a third card',
      lessonOf([ownerWatches, mentor, learner, second], 'preparing'),
      false,
      'lesson-seats',
    ],
    ['in a lesson without a mentor', lessonOf([ownerWatches, learner], 'preparing'), false, 'bad-input'],
    ['in a lesson whose learner scores nothing', lessonOf([breeder, mentor], 'preparing'), false, 'bad-input'],
  ] as const)('BL7: is refused %s', (_case, facts, unconfirmed, code) => {
    expect(decideOpenRound(facts, unconfirmed)).toBe(code);
  });

  it.each([
    ['when every party has agreed', factsAt('preparing', agreed), false],
    ['without an agreement, as the owner said', factsAt('preparing'), true],
    ['when one puppy of several is there', factsAt('preparing', { ...agreed, puppies: [...allOut, sorrel] }), false],
    ['when only one seat scores', factsAt('preparing', { seats: [ownerWatches, mentor] }), false],
    ['in a lesson of two', lessonOf([ownerWatches, mentor, learner, tableHand], 'preparing'), false],
  ])('BL7: %s', (_case, facts, unconfirmed) => {
    expect(decideOpenRound(facts, unconfirmed)).toBeNull();
  });

  it.each([
    ['refused to a seat that does not pick', 'preparing', mentor, 'not-allowed'],
    ['refused to a seat that does not pick, late', 'open', mentor, 'not-allowed'],
    ['refused once the round is open', 'open', coOwner, 'wrong-phase'],
    ['refused after the reveal', 'revealed', coOwner, 'wrong-phase'],
    ['taken from a seat that picks, before the round', 'preparing', coOwner, null],
  ] as const)('BL7: agreeing to the pick order is %s', (_case, stage, seat, code) => {
    expect(decideConfirm(factsAt(stage), seat)).toBe(code);
  });
});

describe('a second round', () => {
  const neck = { puppyId: fern.id, criterion: 'neck' };
  const decision: Decision = {
    slotId: id('6'),
    puppyId: fern.id,
    by: 'breeder',
    reason: '',
    preference: false,
    followedPanel: true,
    at: 1,
  };
  const revealed = factsAt('revealed');

  it.each([
    ['before the reveal', factsAt('closed'), [neck], [], 'wrong-phase'],
    ['while preparing', factsAt('preparing'), [neck], [], 'wrong-phase'],
    ['after sealing', factsAt('sealed'), [neck], [], 'wrong-phase'],
    ['without a round', { ...revealed, round: null }, [neck], [], 'wrong-phase'],
    ['while another is open', { ...revealed, round: roundFacts({ state: 'open' }) }, [neck], [], 'wrong-phase'],
    [
      'after a second one',
      { ...revealed, round: roundFacts({ state: 'revealed', occasion: 'second' }) },
      [neck],
      [],
      'wrong-phase',
    ],
    [
      'after a lesson',
      { ...revealed, round: roundFacts({ state: 'revealed', occasion: 'lesson' }) },
      [neck],
      [],
      'wrong-phase',
    ],
    ['beside a batch of looks', { ...revealed, openBatchId: id('9') }, [neck], [], 'still-open'],
    ['after a decision', revealed, [neck], [decision], 'in-use'],
    ['about nothing', revealed, [], [], 'bad-input'],
    ['about one cell twice', revealed, [neck, { ...neck }], [], 'bad-input'],
    ['about a puppy that is not here', revealed, [{ ...neck, puppyId: id('0') }], [], 'bad-input'],
    [
      'about a puppy that left',
      { ...revealed, puppies: [{ ...fern, withdrawn: true }, moss] },
      [neck],
      [],
      'bad-input',
    ],
    ['about a criterion that is not on the sheet', revealed, [neck, { ...neck, criterion: 'charm' }], [], 'bad-input'],
  ] as const)('BL7: is refused %s', (_case, facts, cells, decisions, code) => {
    expect(decideOpenSecond(facts, cells, decisions)).toBe(code);
  });

  it('BL7: opens about cells of the first, once it is revealed and nothing is decided', () => {
    expect(
      decideOpenSecond(revealed, [neck, { ...neck, criterion: 'ears' }, { ...neck, puppyId: moss.id }], []),
    ).toBeNull();
  });
});

describe('a round closes, opens again and is revealed', () => {
  const allLocked = [locked(breeder), locked(mentor)];

  it.each([
    ['before it has opened', factsAt('preparing'), 'wrong-phase'],
    ['a second time', factsAt('closed', { seats: allLocked }), 'wrong-phase'],
    ['after the reveal', factsAt('revealed', { seats: allLocked }), 'wrong-phase'],
    ['with the owner’s own card open', factsAt('open'), 'own-card-open'],
    ['with another’s card open', factsAt('open', { seats: [locked(breeder), mentor] }), null],
    ['by an owner who scores nothing', factsAt('open', { seats: [ownerWatches, mentor] }), null],
    ['by an owner without a seat', factsAt('open', { seats: [mentor] }), null],
    ['in a lesson that waits for the mentor', lessonOf([ownerWatches, mentor, locked(learner)]), 'wrong-phase'],
    ['in a lesson that waits for the learner', lessonOf([ownerWatches, locked(mentor), learner]), 'wrong-phase'],
    ['in a lesson without a mentor', lessonOf([ownerWatches, locked(learner)]), 'wrong-phase'],
    [
      'in a lesson where both have locked and a third has not',
      lessonOf([ownerWatches, locked(mentor), locked(learner), second]),
      null,
    ],
    [
      'in a lesson where both have locked, with the owner’s own card open',
      lessonOf([breeder, locked(mentor), locked(learner)]),
      'own-card-open',
    ],
  ] as const)('BL7: closing %s', (_case, facts, code) => {
    expect(decideClose(facts)).toBe(code);
  });

  it.each([
    ['before there is one', 'preparing', 'wrong-phase'],
    ['while it is open', 'open', 'wrong-phase'],
    ['after the reveal', 'revealed', 'wrong-phase'],
    ['after sealing', 'sealed', 'wrong-phase'],
    ['while it is closed', 'closed', null],
  ] as const)('BL7: opening a round again %s', (_case, stage, code) => {
    expect(decideReopen(factsAt(stage))).toBe(code);
  });

  it.each([
    ['before there is one', factsAt('preparing', { seats: allLocked }), 'wrong-phase'],
    ['while it is open', factsAt('open', { seats: allLocked }), 'still-open'],
    ['a second time', factsAt('revealed', { seats: allLocked }), 'wrong-phase'],
    ['with the owner’s own card open', factsAt('closed'), 'own-card-open'],
    ['with another’s card open', factsAt('closed', { seats: [locked(breeder), mentor] }), null],
  ] as const)('BL7: revealing a round %s', (_case, facts, code) => {
    expect(decideReveal(facts)).toBe(code);
  });
});

describe('a seat locks its card', () => {
  it.each([
    ['of a seat that is not here', factsAt('open'), id('0'), 'not-allowed'],
    ['of a seat that scores nothing', factsAt('open'), tableHand.id, 'not-allowed'],
    ['before the round', factsAt('preparing'), mentor.id, 'wrong-phase'],
    ['once the round is closed', factsAt('closed'), mentor.id, 'wrong-phase'],
    ['after the reveal', factsAt('revealed'), mentor.id, 'wrong-phase'],
    ['a second time', factsAt('open', { seats: [locked(mentor)] }), mentor.id, 'wrong-phase'],
    ['of a mentor before the learner’s', lessonOf([mentor, learner]), mentor.id, 'learner-first'],
    ['of a learner', lessonOf([mentor, learner]), learner.id, null],
    ['of a mentor after the learner’s', lessonOf([mentor, locked(learner)]), mentor.id, null],
    ['in a lesson whose learner is gone', lessonOf([mentor, second]), mentor.id, null],
    [
      'in a panel that names a learner',
      factsAt('open', { plan: lessonPlan, seats: [mentor, learner] }),
      mentor.id,
      null,
    ],
    ['in an open round', factsAt('open'), mentor.id, null],
  ] as const)('BL7: the lock %s', (_case, facts, seatId, code) => {
    expect(decideLock(facts, seatId)).toBe(code);
  });

  it.each([
    ['one card is open', factsAt('open', { seats: [locked(breeder), mentor, tableHand] }), false],
    ['all that score have locked', factsAt('open', { seats: [locked(breeder), locked(mentor), tableHand] }), true],
    ['there is no round, and nobody has locked', factsAt('preparing'), false],
    ['a lesson waits for its mentor', lessonOf([mentor, locked(learner)]), false],
    [
      'a lesson waits for its mentor, with an old lock of who scores nothing now',
      lessonOf([mentor, locked(learner), locked(tableHand)]),
      false,
    ],
    ['a lesson waits for its learner', lessonOf([locked(mentor), learner]), false],
    ['a lesson has no mentor', lessonOf([locked(learner)]), false],
    ['learner and mentor have locked, a third has not', lessonOf([locked(mentor), locked(learner), second]), true],
  ])('BL7: the last awaited lock: %s', (_case, facts, all) => {
    expect(everySeatLocked(facts)).toBe(all);
  });
});

describe('the table moves', () => {
  const leads = { owner: false, seatId: mentor.id, leads: true };

  it.each([
    ['who neither owns nor leads', factsAt('open'), { ...leads, leads: false }, id('1a'), 'not-allowed'],
    ['before the round', factsAt('preparing'), leads, id('1a'), 'wrong-phase'],
    ['once the round is closed', factsAt('closed'), leads, id('1a'), 'wrong-phase'],
    [
      'in a round from photographs',
      factsAt('open', { round: roundFacts({ medium: 'photographs' }) }),
      leads,
      id('1a'),
      'wrong-phase',
    ],
    ['to a showing that is not here', factsAt('open'), leads, id('0'), 'not-found'],
    ['by whoever leads', factsAt('open'), leads, id('2a'), null],
    ['by the owner', factsAt('open'), { owner: true, seatId: null, leads: false }, id('1a'), null],
  ] as const)('LV3: %s', (_case, facts, viewer, showingId, code) => {
    expect(decideMoveTable(facts, viewer, showingId)).toBe(code);
  });
});

describe('a puppy leaves and comes back', () => {
  const elsewhere = roundFacts({ showings: [{ id: id('1a'), puppyId: fern.id, place: 0, repeat: false }] });

  it.each([
    ['one that is not here leaves', factsAt('open'), id('0'), true, 'not-found'],
    ['one leaves after the reveal', factsAt('revealed'), fern.id, true, 'wrong-phase'],
    ['one comes back after the reveal', factsAt('revealed'), fern.id, false, 'wrong-phase'],
    [
      'one leaves while a second round is open',
      factsAt('open', { earlierRounds: [roundFacts({ state: 'revealed' })] }),
      fern.id,
      true,
      'wrong-phase',
    ],
    [
      'one that has no place in the round comes back',
      factsAt('open', { round: elsewhere }),
      moss.id,
      false,
      'wrong-phase',
    ],
    ['one that has no place in the round leaves', factsAt('open', { round: elsewhere }), moss.id, true, null],
    ['one that has a place comes back', factsAt('closed', { round: elsewhere }), fern.id, false, null],
    ['one of several that have a place comes back', factsAt('open'), fern.id, false, null],
    ['one comes back before the round', factsAt('preparing'), moss.id, false, null],
    ['one leaves before the round', factsAt('preparing'), moss.id, true, null],
    [
      'one leaves after practice',
      factsAt('open', { earlierRounds: [roundFacts({ occasion: 'practice', state: 'revealed' })] }),
      moss.id,
      true,
      null,
    ],
  ] as const)('BL7: %s', (_case, facts, puppyId, out, code) => {
    expect(decideWithdrawal(facts, puppyId, out)).toBe(code);
  });
});

it('BL7: a result is made of revealed rounds that count, oldest first', () => {
  const [first, again] = [
    roundFacts({ state: 'revealed' }),
    roundFacts({ id: id('0'), state: 'revealed', occasion: 'second' }),
  ];
  const practice = roundFacts({ state: 'revealed', occasion: 'practice' });
  expect(scoredRounds({ earlierRounds: [], round: null })).toEqual([]);
  expect(scoredRounds({ earlierRounds: [], round: roundFacts({ state: 'closed' }) })).toEqual([]);
  expect(scoredRounds({ earlierRounds: [practice], round: practice })).toEqual([]);
  expect(scoredRounds({ earlierRounds: [practice, first], round: roundFacts({ occasion: 'second' }) })).toEqual([
    first,
  ]);
  expect(scoredRounds({ earlierRounds: [first], round: again })).toEqual([first, again]);
});

describe('learner and mentor', () => {
  it.each([
    ['in a panel', usualPlan, [mentor, learner], null],
    ['in a panel that names a learner', { ...usualPlan, learnerSeatId: learner.id }, [mentor, learner], null],
    ['without a learner', { ...lessonPlan, learnerSeatId: null }, [mentor, second], null],
    ['when the learner scores nothing', lessonPlan, [mentor, { ...learner, kind: 'none' }], null],
    ['when nobody else scores', lessonPlan, [learner, tableHand], null],
    ['of two', lessonPlan, [tableHand, learner, mentor], mentor.id],
    ['of three, none locked', lessonPlan, [learner, mentor, second], mentor.id],
    ['of three, the last locked first', lessonPlan, [learner, mentor, locked(second, 2)], second.id],
    ['of three, both locked', lessonPlan, [learner, locked(mentor, 3), locked(second, 2)], second.id],
    [
      'of three, both locked, the earlier first',
      lessonPlan,
      [learner, locked(mentor, 1), locked(second, 2)],
      mentor.id,
    ],
    ['of three, both locked at one time', lessonPlan, [learner, locked(mentor, 2), locked(second, 2)], mentor.id],
  ] as const)('BL7: the mentor of a lesson %s', (_case, plan, seats, found) => {
    expect(lessonSeats({ plan, seats })).toEqual(found && { learner: learner.id, mentor: found });
  });

  it.each([
    ['a panel of four', 'panel', [breeder, mentor, photographer, coOwner], false],
    ['a lesson of three', 'lesson', [mentor, learner, second], true],
    ['a lesson of two, with a table person', 'lesson', [mentor, learner, tableHand], false],
  ] as const)('BL7: too many for a lesson: %s', (_case, kind, seats, many) => {
    expect(tooManyForLesson(kind, seats)).toBe(many);
  });
});

describe('an evaluation leaves as a file', () => {
  const secondRound = (state: 'open' | 'closed' | 'revealed') =>
    factsAt('revealed', {
      round: roundFacts({ id: id('5a'), occasion: 'second', state }),
      earlierRounds: [roundFacts({ state: 'revealed' })],
    });

  it.each([
    ['while it is prepared', factsAt('preparing'), 'wrong-phase'],
    ['while its round is open', factsAt('open'), 'wrong-phase'],
    ['before its closed round is revealed', factsAt('closed'), 'wrong-phase'],
    ['beside an open second round', secondRound('open'), 'still-open'],
    ['beside a closed second round', secondRound('closed'), 'still-open'],
    ['beside an open second look', factsAt('revealed', { openBatchId: id('b') }), 'still-open'],
    [
      'beside an open second look though the panel is anonymous',
      factsAt('revealed', { openBatchId: id('b'), plan: { ...usualPlan, discussion: 'anonymous' } }),
      'still-open',
    ],
    ['of an anonymous panel', factsAt('sealed', { plan: { ...usualPlan, discussion: 'anonymous' } }), 'anonymous'],
    [
      'whose only revealed round was practice',
      factsAt('revealed', { round: roundFacts({ occasion: 'practice', state: 'revealed' }) }),
      'wrong-phase',
    ],
  ] as const)('BL1: never %s', (_case, facts, code) => {
    expect(decideLeave(facts)).toBe(code);
  });

  it.each([
    ['once its round is revealed', factsAt('revealed')],
    ['once it is sealed', factsAt('sealed')],
    ['once its second round is revealed', secondRound('revealed')],
  ])('BL1: %s', (_case, facts) => {
    expect(decideLeave(facts)).toBeNull();
  });
});
