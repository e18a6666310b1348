import { describe, expect, it } from 'vitest';
import type { Entry, EntryBody } from '#lib/contract/entry';
import { entryField, gradeOf, receiveEntry, type Standing } from '#lib/evaluation/entries';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { fullSheet } from '#lib/sheet/shippedSheets';
import {
  factsAt,
  id,
  locked,
  mentor,
  moss,
  fern,
  photographer,
  roundFacts,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

const open = factsAt('open');
const entryOf = (body: EntryBody, change: Partial<Entry> = {}): Entry => ({
  id: id('7'),
  subject: id('1a'),
  counter: 5,
  madeAt: 1,
  body,
  ...change,
});
// Of the short sheet: shoulder layback is scored on seven steps, the neck in degrees to either side.
const step = (value: number | null, cannotJudge = false): EntryBody => ({
  kind: 'score',
  criterion: 'shoulder-layback',
  value,
  cannotJudge,
});
const degree = (value: number | null): EntryBody => ({ kind: 'score', criterion: 'neck', value, cannotJudge: false });
const free = (criterion: string, value: number | null, cannotJudge = false): EntryBody => ({
  kind: 'free',
  criterion,
  value,
  cannotJudge,
});
const overall = (value: number | null, cannotJudge = false): EntryBody => ({ kind: 'overall', value, cannotJudge });
const check = (key: string, answer: string | null): EntryBody => ({ kind: 'check', check: key, answer, detail: '' });
const note = (criterion: string | null): EntryBody => ({ kind: 'note', criterion, text: 'long' });
const choice = (puppy: string | null): EntryBody => ({ kind: 'choice', puppy, reason: '', chance: null });
const fair: EntryBody = { kind: 'fair', fair: false, why: 'tired' };
const manner: EntryBody = { kind: 'manner', manner: 'relaxed' };

type Server = {
  readonly facts?: EvaluationFacts;
  readonly seat?: SeatFacts;
  readonly standing?: Standing | null;
  readonly seen?: { readonly seatId: string; readonly status: 'applied' | 'superseded' | 'late' };
};
/** What becomes of an entry of device 5: its status, or the code of its refusal. */
function fate(entry: Entry, { facts = open, seat = mentor, standing = null, seen }: Server = {}): string {
  const { keepIn, outcome } = receiveEntry(
    { facts, seat, deviceId: '5', entry },
    { seen: seen ?? null, standingIn: () => standing },
  );
  expect(outcome.id).toBe(entry.id);
  expect(keepIn !== null).toBe(outcome.status !== 'refused' && seen === undefined);
  expect(outcome.code === null).toBe(outcome.status !== 'refused');
  return outcome.code ?? outcome.status;
}

describe('an entry is refused', () => {
  const full = factsAt('open', { sheet: fullSheet });
  it.each([
    ['before there is a round', step(4), { facts: factsAt('preparing') }, 'wrong-phase'],
    ['from a seat that scores nothing', step(4), { seat: tableHand }, 'not-allowed'],
    ['about a criterion that is not on the sheet', free('charm', 4), {}, 'bad-input'],
    ['in a free stance, where none is asked', free('neck', 1), {}, 'bad-input'],
    [
      'about what only a hand can tell, from photographs',
      { ...step(1), criterion: 'spring-of-rib' } as EntryBody,
      { facts: full, seat: photographer },
      'not-allowed',
    ],
    ['with a value that cannot be judged', step(4, true), {}, 'bad-input'],
    ['with an impression that cannot be judged', overall(4, true), {}, 'bad-input'],
    ['below the scale', step(0), {}, 'out-of-scale'],
    ['above the scale', step(8), {}, 'out-of-scale'],
    ['below three degrees', degree(-4), {}, 'out-of-scale'],
    ['above three degrees', degree(4), {}, 'out-of-scale'],
    ['with an impression below the scale', overall(0), {}, 'out-of-scale'],
    ['with an impression above the scale', overall(8), {}, 'out-of-scale'],
    ['with a free stance above the scale', free('front-legs', 8), {}, 'out-of-scale'],
    ['about a check that there is not', check('charm', null), {}, 'bad-input'],
    [
      'about a check that this sheet leaves out',
      check('bite', 'scissor'),
      { facts: factsAt('open', { sheet: { ...open.sheet, checks: ['eyes'] } }) },
      'bad-input',
    ],
    ['with an answer that the check does not offer', check('bite', 'flat'), {}, 'bad-input'],
    [
      'about a check that only a hand can make, from photographs',
      check('palate', 'whole'),
      { seat: photographer },
      'not-allowed',
    ],
    ['with a note on a criterion that is not on the sheet', note('charm'), {}, 'bad-input'],
  ] as const)('SC5: %s', (_case, body, server, code) => {
    expect(fate(entryOf(body), server)).toBe(code);
  });

  it.each([
    ['for a place that is not here', id('0'), fern.id, 'not-found'],
    ['of a puppy that is not here', id('6'), id('0'), 'not-found'],
    ['of the other sex', id('9'), sorrel.id, 'not-eligible'],
    ['of the sex asked for', id('9'), moss.id, 'applied'],
    ['for a place for either sex', id('6'), sorrel.id, 'applied'],
    ['taken back, for a place that is not here', id('0'), null, 'not-found'],
    ['taken back', id('9'), null, 'applied'],
  ])('SC5: an own choice %s', (_case, subject, puppy, expected) => {
    expect(fate(entryOf(choice(puppy), { subject }))).toBe(expected);
  });

  it.each([
    ['lesson', 'applied'],
    ['practice', 'not-found'],
    ['second', 'not-found'],
  ] as const)('SC5: an own choice, where the only round is a %s: %s', (occasion, expected) => {
    expect(
      fate(entryOf(choice(null), { subject: id('6') }), {
        facts: factsAt('open', { round: roundFacts({ occasion }) }),
      }),
    ).toBe(expected);
  });

  it('SC5: nonsense is refused in every phase, and what is about no showing here in none kept', () => {
    for (const stage of ['open', 'closed', 'revealed', 'sealed'] as const) {
      expect(fate(entryOf(step(8)), { facts: factsAt(stage) })).toBe('out-of-scale');
      expect(fate(entryOf(step(4), { subject: id('0') }), { facts: factsAt(stage) })).toBe('not-found');
    }
  });
});

describe('an entry comes into force', () => {
  it.each([
    ['the lowest step', step(1), {}],
    ['the highest step', step(7), {}],
    ['the lowest degree', degree(-3), {}],
    ['the highest degree', degree(3), {}],
    ['cannot judge', step(null, true), {}],
    ['a cleared score', step(null), {}],
    ['the lowest impression', overall(1), {}],
    ['the highest impression', overall(7), {}],
    ['an impression that cannot be judged', overall(null, true), {}],
    ['a free stance, where it is asked', free('front-legs', 7), {}],
    ['a free stance to either side', free('topline-and-loin', -3), {}],
    [
      'what a hand can tell, from a seat with hands on',
      { ...step(1), criterion: 'spring-of-rib' },
      { facts: factsAt('open', { sheet: fullSheet }) },
    ],
    ['a check', check('bite', 'scissor'), {}],
    ['a check taken back', check('bite', null), {}],
    ['a check that the eye can make, from photographs', check('bite', 'scissor'), { seat: photographer }],
    ['a check made by hand', check('palate', 'whole'), {}],
    ['a note', note(null), {}],
    ['a note on a criterion', note('ears'), {}],
    ['manner', manner, {}],
    ['not a fair day', fair, {}],
  ] as const)('SC5: %s', (_case, body, server) => {
    expect(fate(entryOf(body as EntryBody), server)).toBe('applied');
  });

  it.each([
    ['once the seat has locked', { seat: locked(mentor) }],
    ['once the round is closed', { facts: factsAt('closed') }],
    ['after the reveal', { facts: factsAt('revealed') }],
    ['after sealing', { facts: factsAt('sealed') }],
  ])('SC5: kept as late %s, and never applied', (_case, server) => {
    expect(fate(entryOf(step(4)), server)).toBe('late');
    expect(fate(entryOf(choice(fern.id), { subject: id('6') }), server)).toBe('late');
    expect(
      fate(entryOf(step(4)), { ...server, standing: { counter: 9, deviceId: '9', madeAt: 1, deviceEnded: false } }),
    ).toBe('late');
  });
});

describe('sent again', () => {
  it('SC2: an entry of another seat’s id is refused, and nothing is told of it', () => {
    expect(fate(entryOf(step(4)), { seen: { seatId: id('3'), status: 'applied' } })).toBe('bad-input');
  });

  it.each(['applied', 'superseded', 'late'] as const)(
    'SC2: one that was %s is answered as the first time and kept once, whatever holds now',
    (status) => {
      for (const facts of [open, factsAt('closed'), factsAt('preparing')])
        expect(fate(entryOf(step(4)), { facts, seen: { seatId: mentor.id, status } })).toBe(status);
    },
  );
});

describe('two edits of one register', () => {
  it.each([
    ['nothing stands', null, 'applied'],
    ['a higher counter stands', { counter: 6, deviceId: '1', madeAt: 1, deviceEnded: false }, 'superseded'],
    ['a lower counter stands', { counter: 4, deviceId: '9', madeAt: 1, deviceEnded: false }, 'applied'],
    [
      'the same counter of a higher device stands',
      { counter: 5, deviceId: '9', madeAt: 1, deviceEnded: false },
      'superseded',
    ],
    [
      'the same counter of a lower device stands',
      { counter: 5, deviceId: '1', madeAt: 1, deviceEnded: false },
      'applied',
    ],
    ['the same edit stands', { counter: 5, deviceId: '5', madeAt: 1, deviceEnded: false }, 'superseded'],
    [
      'an earlier edit of the same device and counter stands, from another of its pages',
      { counter: 5, deviceId: '5', madeAt: 0, deviceEnded: false },
      'applied',
    ],
    [
      'a higher counter of an ended device stands',
      { counter: 6, deviceId: '9', madeAt: 1, deviceEnded: true },
      'applied',
    ],
    [
      'a higher counter of the same device stands, ended meanwhile',
      { counter: 6, deviceId: '5', madeAt: 1, deviceEnded: true },
      'superseded',
    ],
  ])('SC2: %s', (_case, standing, expected) => {
    expect(fate(entryOf(step(4)), { standing })).toBe(expected);
  });
});

describe('a second round', () => {
  const cells = [
    { puppyId: fern.id, criterion: 'front-legs' },
    { puppyId: fern.id, criterion: 'neck' },
  ];
  const first = roundFacts({ state: 'revealed' });
  const again = roundFacts({
    id: id('0'),
    occasion: 'second',
    cells,
    showings: [
      { id: id('3a'), puppyId: fern.id, place: 0, repeat: false },
      { id: id('3b'), puppyId: moss.id, place: 1, repeat: false },
    ],
  });
  const facts = factsAt('open', { round: again, earlierRounds: [first] });

  it.each([
    ['a score of a cell not asked', { ...degree(1), criterion: 'ears' } as EntryBody, id('3a'), 'bad-input'],
    ['a score of another puppy', degree(1), id('3b'), 'bad-input'],
    ['a check', check('bite', 'scissor'), id('3a'), 'bad-input'],
    ['an impression', overall(4), id('3a'), 'bad-input'],
    ['a free stance of the cell', free('front-legs', 4), id('3a'), 'bad-input'],
    ['not a fair day', fair, id('3a'), 'bad-input'],
    ['manner', manner, id('3a'), 'bad-input'],
    ['a note', note('ears'), id('3b'), 'applied'],
    ['a score of the cell', degree(1), id('3a'), 'applied'],
    ['what was meant for the first round', step(4), id('1a'), 'late'],
    ['a check meant for the first round', check('bite', 'scissor'), id('1b'), 'late'],
    ['an own choice, which the first round asked for', choice(fern.id), id('6'), 'late'],
  ])('SC5: %s', (_case, body, subject, expected) => {
    expect(fate(entryOf(body, { subject }), { facts })).toBe(expected);
  });

  it('SC5: each is kept in the round that it belongs to, and meets what stands there', () => {
    const asked: string[] = [];
    const keptIn = (body: EntryBody, subject: string) =>
      receiveEntry(
        { facts, seat: mentor, deviceId: '5', entry: entryOf(body, { subject }) },
        { seen: null, standingIn: (roundId) => (asked.push(roundId), null) },
      ).keepIn;
    expect([keptIn(degree(1), id('3a')), keptIn(step(4), id('1a')), keptIn(choice(fern.id), id('6'))]).toEqual([
      id('0'),
      id('f'),
      id('f'),
    ]);
    expect(asked).toEqual([id('0')]);
  });

  it('SC5: an earlier round takes nothing into force, however it stands', () => {
    expect(fate(entryOf(step(4)), { facts: { ...facts, earlierRounds: [roundFacts({ state: 'open' })] } })).toBe(
      'late',
    );
  });

  it('SC5: in a second round whose first is gone, an own choice is kept nowhere', () => {
    expect(fate(entryOf(choice(fern.id), { subject: id('6') }), { facts: { ...facts, earlierRounds: [] } })).toBe(
      'not-found',
    );
  });
});

it.each([
  [step(4), 'score:shoulder-layback', 4],
  [free('neck', -1), 'free:neck', -1],
  [overall(6), 'overall', 6],
  [check('bite', 'scissor'), 'check:bite', null],
  [note(null), 'note', null],
  [note('ears'), 'note:ears', null],
  [manner, 'manner', null],
  [fair, 'fair', null],
  [choice(fern.id), 'choice', null],
] as const)('SC2: %j writes the register %s, and its grade is %j', (body, field, grade) => {
  expect([entryField(body), gradeOf(body)]).toEqual([field, grade]);
});
