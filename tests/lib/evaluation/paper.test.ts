import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import type { EntryBody } from '#lib/contract/entry';
import type { Cell } from '#lib/contract/plan';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import {
  askedFields,
  countAnswers,
  decideCard,
  decidePaper,
  decidePaperLock,
  decidePaperSeat,
  sheetCodes,
  sheetShowings,
} from '#lib/evaluation/paper';
import { shortSheet } from '#lib/sheet/shippedSheets';
import {
  breeder,
  factsAt,
  factsStages,
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

const neighbour = seatFacts({ id: id('0'), label: 'neighbour', paper: true, joined: false, issued: 0 });
const owner = { owner: true };
const withSeats = (...seats: SeatFacts[]): Partial<EvaluationFacts> => ({ seats });

describe('which seat may be marked', () => {
  const input = { kind: 'hands', leads: false } as const;

  it.each([
    ['a new one', null, input, null],
    [
      'a live one that nobody has joined',
      seatFacts({ issued: 0, joined: false, kind: 'live' }),
      { ...input, kind: 'live' },
      null,
    ],
    ['the owner’s own', breeder, input, 'in-use'],
    ['one that was joined', mentor, input, 'in-use'],
    ['one that does not score', null, { ...input, kind: 'none' }, 'bad-input'],
    ['one that leads the table', null, { ...input, leads: true }, 'bad-input'],
  ] as const)('BL1: %s', (_, standing, asked, verdict) => {
    expect(decidePaperSeat(factsAt('preparing'), standing, asked)).toBe(verdict);
  });

  it.each(factsStages)('BL1: at stage %s only before the first round', (stage) => {
    expect(decidePaperSeat(factsAt(stage), null, input)).toBe(stage === 'preparing' ? null : 'wrong-phase');
  });

  it('BL1: none in a lesson', () => {
    expect(
      decidePaperSeat(
        factsAt('preparing', { plan: { ...usualPlan, kind: 'lesson', learnerSeatId: breeder.id } }),
        null,
        input,
      ),
    ).toBe('bad-input');
  });
});

describe('who may type and lock a card from paper', () => {
  const open = (...seats: SeatFacts[]) => factsAt('open', withSeats(...seats));

  it.each([
    ['the owner, her card locked', owner, open(locked(breeder), neighbour), null],
    ['an owner who does not score', owner, open({ ...breeder, kind: 'none' }, neighbour), null],
    ['an owner without a seat', owner, open(mentor, neighbour), null],
    ['the owner, her card open', owner, open(breeder, neighbour), 'own-card-open'],
    ['anybody else', { owner: false }, open(locked(breeder), neighbour), 'not-allowed'],
    ['for a seat with a device', owner, open(locked(breeder), { ...neighbour, paper: false }), 'not-allowed'],
    ['for no seat', owner, open(locked(breeder)), 'not-found'],
    ['for one that is locked', owner, open(locked(breeder), locked(neighbour)), 'wrong-phase'],
  ] as const)('BL1: %s', (_, viewer, facts, verdict) => {
    expect(decidePaper(facts, viewer, neighbour.id)).toBe(verdict);
  });

  it.each(factsStages)('BL1: at stage %s only in an open round', (stage) => {
    const verdict = stage === 'open' ? null : 'wrong-phase';
    expect(decidePaper(factsAt(stage, withSeats(locked(breeder), neighbour)), owner, neighbour.id)).toBe(verdict);
    const all = new Set(roundFacts({}).showings.map((showing) => showing.id));
    expect(
      decidePaperLock(factsAt(stage, withSeats(locked(breeder), neighbour)), owner, {
        seatId: neighbour.id,
        typed: all,
      }),
    ).toBe(verdict);
  });

  it('BL1: locked only with every sheet typed; one of a withdrawn puppy is none', () => {
    const [first, ...others] = roundFacts({}).showings.map((showing) => showing.id);
    const lock = (facts: EvaluationFacts, typed: readonly string[]) =>
      decidePaperLock(facts, owner, { seatId: neighbour.id, typed: new Set(typed) });
    const facts = open(locked(breeder), neighbour);
    expect(lock(facts, others)).toBe('still-open');
    expect(lock(facts, [first ?? '', ...others])).toBeNull();
    expect(lock(open(breeder, neighbour), [first ?? '', ...others])).toBe('own-card-open');
    const sorrelGone = { ...facts, puppies: [fern, moss, { ...sorrel, withdrawn: true }] };
    expect(
      lock(
        sorrelGone,
        roundFacts({})
          .showings.filter((showing) => showing.puppyId !== sorrel.id)
          .map((showing) => showing.id),
      ),
    ).toBeNull();
    expect(sheetShowings(sorrelGone.puppies, roundFacts({}).showings).map((showing) => showing.puppyId)).toEqual([
      fern.id,
      moss.id,
      fern.id,
    ]);
  });
});

const overall: EntryBody = { kind: 'overall', value: 3, cannotJudge: false };

it.each<[string, readonly EntryBody[], string | null]>([
  ['one answer', [overall], null],
  ['an answer and an empty word', [overall, { kind: 'note', criterion: null, text: '' }], null],
  ['not seen', [{ ...overall, value: null, cannotJudge: true }], null],
  ['nothing', [], 'bad-input'],
  ['nothing said', [{ ...overall, value: null }], 'bad-input'],
  ['a question twice', [overall, overall], 'bad-input'],
  [
    'a choice, which no sheet asks for',
    [overall, { kind: 'choice', puppy: null, reason: '', chance: null }],
    'bad-input',
  ],
])('SC1: a card of %s', (_, bodies, verdict) => {
  expect(decideCard(bodies)).toBe(verdict);
});

describe('what a sheet asks', () => {
  const asked = (kind: SeatFacts['kind'], puppy = moss, cells: Cell[] | null = null) =>
    askedFields({ sheet: shortSheet, cells, kind, puppy });
  const hands = shortSheet.criteria.filter((one) => one.handsOnly).map(({ key }) => `score:${key}`);

  it('SA1: every criterion and check that the seat can touch, testicles of dogs alone, the overall last', () => {
    expect(asked('hands')).toEqual(
      expect.arrayContaining([
        ...shortSheet.criteria.map(({ key }) => `score:${key}`),
        'check:testicles',
        'check:gait',
      ]),
    );
    expect(asked('hands').at(-1)).toBe('overall');
    expect(asked('hands', fern)).toEqual(asked('hands').filter((field) => field !== 'check:testicles'));
    for (const field of [...hands, 'check:testicles']) expect(asked('live')).not.toContain(field);
    expect(new Set(asked('hands')).size).toBe(asked('hands').length);
  });

  it('BL7: in a second round its cells of this puppy and nothing else', () => {
    const [one, other] = shortSheet.criteria.filter((criterion) => !criterion.handsOnly).map(({ key }) => key);
    const cells = [
      { puppyId: moss.id, criterion: one ?? '' },
      { puppyId: fern.id, criterion: other ?? '' },
    ];
    expect(asked('hands', moss, cells)).toEqual([`score:${one}`]);
  });

  it('SC1: counts what is answered of what is asked: not seen counts, silence and a word do not', () => {
    const bodies: EntryBody[] = [
      overall,
      { kind: 'check', check: 'gait', answer: 'not-examined', detail: '' },
      { kind: 'check', check: 'skin', answer: null, detail: '' },
      { kind: 'note', criterion: null, text: 'a word' },
    ];
    expect(countAnswers(asked('hands'), bodies)).toBe(2);
    expect(countAnswers(['overall'], bodies)).toBe(1);
  });
});

it('BL1: codes are a letter and two digits, each once in a seat’s sheets, drawn for the seat and the round and telling no order', () => {
  const ids = fc.uniqueArray(fc.stringMatching(/^[0-9a-f]{32}$/), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(ids, fc.stringMatching(/^[0-9a-f]{32}$/), (showingIds, seatId) => {
      const showings = showingIds.map((showing, place) => ({ id: showing, puppyId: fern.id, place, repeat: false }));
      const codes = sheetCodes({ id: id('f'), showings }, seatId);
      expect(new Set(codes.values()).size).toBe(showingIds.length);
      for (const code of codes.values()) expect(code).toMatch(/^[A-HJKMNP-TV-Z]\d\d$/);
      expect(sheetCodes({ id: id('f'), showings: showings.toReversed() }, seatId)).toEqual(codes);
    }),
  );
  const { showings } = roundFacts({});
  const of = (round: string, seat: SeatFacts) => [...sheetCodes({ id: id(round), showings }, seat.id).values()];
  expect(of('f', mentor)).not.toEqual(of('f', photographer));
  expect(of('f', mentor)).not.toEqual(of('e', mentor));
  expect(of('f', tableHand)).toHaveLength(4);
});
