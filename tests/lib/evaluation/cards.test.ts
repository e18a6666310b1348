import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EntryBody, entryBodySchema } from '#lib/contract/entry';
import { canonicalCards, decideCardMove, type HeldAnswer, swapCards } from '#lib/evaluation/cards';
import { entryField } from '#lib/evaluation/entries';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { body, cards, hex } from '#tests/support/arbitraryCards';
import { factsAt, id, locked, mentor, roundFacts, sorrel, tableHand } from '#tests/support/evaluationFacts';

it('BL7: one set of answers has one text, in whatever order and however the parts of an answer are laid out', () => {
  fc.assert(
    fc.property(cards, (one) => {
      const turned = one.answers.toReversed().map(({ subject, body: said }) => ({
        subject,
        body: Object.fromEntries(Object.entries(said).toReversed()) as EntryBody,
      }));
      expect(canonicalCards({ ...one, answers: turned })).toBe(canonicalCards(one));
    }),
  );
});

it('BL7: two cards that differ in one answer, the seat or the round have two texts', () => {
  fc.assert(
    fc.property(cards, fc.record({ subject: hex(32), body }), (one, more) => {
      const text = canonicalCards(one);
      expect(canonicalCards({ ...one, answers: [...one.answers, more] })).not.toBe(text);
      expect(canonicalCards({ ...one, seatId: one.roundId, roundId: one.seatId }) === text).toBe(
        one.seatId === one.roundId,
      );
    }),
  );
});

it('BL7: what the server takes in of an answer and what the device typed have one text', () => {
  const typed = { kind: 'note', criterion: null, text: '  two\nlines \t' } as const;
  const answers = (said: EntryBody) => [{ subject: 'a'.repeat(32), body: said }];
  const ids = { roundId: 'b'.repeat(32), seatId: 'c'.repeat(32) };
  expect(canonicalCards({ ...ids, answers: answers(typed) })).toBe(
    canonicalCards({ ...ids, answers: answers(entryBodySchema.parse(typed)) }),
  );
});

it('BL7: the bytes are as described', () => {
  const answers = [
    { subject: 'f'.repeat(32), body: { kind: 'score', criterion: 'neck', value: 5, cannotJudge: false } },
    { subject: '0'.repeat(32), body: { kind: 'note', criterion: 'neck', text: 'größer\n"6"' } },
  ] as const;
  expect(canonicalCards({ roundId: '1'.repeat(32), seatId: '2'.repeat(32), answers })).toBe(
    `["cards",1,"${'1'.repeat(32)}","${'2'.repeat(32)}"]\n["${'0'.repeat(32)}","note:neck","größer\\n\\"6\\""]\n["${'f'.repeat(32)}","score:neck",5,false]`,
  );
});

const fair: EntryBody = { kind: 'fair', fair: false, why: ' tired ' };
const choice: EntryBody = { kind: 'choice', puppy: 'p', reason: ' best\n', chance: 60 };

it.each<[EntryBody, string]>([
  [{ kind: 'score', criterion: 'neck', value: null, cannotJudge: true }, '["s","score:neck",null,true]'],
  [{ kind: 'free', criterion: 'neck', value: -1, cannotJudge: false }, '["s","free:neck",-1,false]'],
  [{ kind: 'overall', value: 6, cannotJudge: false }, '["s","overall",6,false]'],
  [{ kind: 'check', check: 'bite', answer: 'level', detail: ' just ' }, '["s","check:bite","level","just"]'],
  [{ kind: 'note', criterion: null, text: ' calm\n' }, '["s","note","calm"]'],
  [{ kind: 'manner', manner: 'tense' }, '["s","manner","tense"]'],
  [fair, '["s","fair",false,"tired"]'],
  [choice, '["s","choice","p","best",60]'],
])('BL7: %j is written as %s', (said, line) => {
  expect(canonicalCards({ roundId: 'r', seatId: 't', answers: [{ subject: 's', body: said }] })).toBe(
    `["cards",1,"r","t"]\n${line}`,
  );
});

it.each([
  ['to a seat that scores nothing', factsAt('open'), tableHand, id('1a'), id('1b'), 'not-allowed'],
  ['before the round', factsAt('preparing'), mentor, id('1a'), id('1b'), 'wrong-phase'],
  ['once the round is closed', factsAt('closed'), mentor, id('1a'), id('1b'), 'wrong-phase'],
  ['after the reveal', factsAt('revealed'), mentor, id('1a'), id('1b'), 'wrong-phase'],
  ['once the card is locked', factsAt('open'), locked(mentor, 0), id('1a'), id('1b'), 'wrong-phase'],
  [
    'in a round about single cells',
    factsAt('open', { round: roundFacts({ occasion: 'second', cells: [] }) }),
    mentor,
    id('1a'),
    id('1b'),
    'wrong-phase',
  ],
  ['from a showing that is not here', factsAt('open'), mentor, id('0'), id('1b'), 'not-found'],
  ['to a showing that is not here', factsAt('open'), mentor, id('1a'), id('0'), 'not-found'],
  ['of one showing with itself', factsAt('open'), mentor, id('1a'), id('1a'), 'bad-input'],
  ['of two showings of one puppy', factsAt('open'), mentor, id('1a'), id('2a'), 'bad-input'],
  [
    'from a puppy that left',
    factsAt('open', { puppies: [...factsAt('open').puppies.slice(0, 2), { ...sorrel, withdrawn: true }] }),
    mentor,
    id('1c'),
    id('1b'),
    'not-eligible',
  ],
  [
    'to a puppy that left',
    factsAt('open', { puppies: [{ ...sorrel, withdrawn: true }] }),
    mentor,
    id('1a'),
    id('1c'),
    'not-eligible',
  ],
] as const)('SC3: a change of places is refused %s', (_case, facts, seat, from, to, code) => {
  expect(decideCardMove(facts, seat, { from, to })).toBe(code);
});

it('SC3: two cards of two puppies that are there change places while the card is open, whoever else left', () => {
  expect(
    decideCardMove(
      factsAt('open', {
        puppies: [
          { ...sorrel, withdrawn: true },
          { ...sorrel, id: id('a') },
        ],
      }),
      mentor,
      { from: id('1a'), to: id('1b') },
    ),
  ).toBeNull();
});

const fern = { subject: 'f'.repeat(32), bitch: true };
const yarrow = { subject: '7'.repeat(32), bitch: true };
const moss = { subject: '3'.repeat(32), bitch: false };
const elsewhere = 'e'.repeat(32);

const held = (subject: string, body: EntryBody, change: Partial<HeldAnswer> = {}): HeldAnswer => ({
  subject,
  field: entryField(body),
  counter: 1,
  body,
  deviceId: 'first',
  ...change,
});
const score = (value: number | null): EntryBody => ({ kind: 'score', criterion: 'neck', value, cannotJudge: false });

const swappable = fc.oneof(
  fc.record({
    kind: fc.constant('score' as const),
    criterion: fc.constantFrom('neck', 'topline'),
    value: fc.integer({ min: 1, max: 7 }),
    cannotJudge: fc.constant(false),
  }),
  fc.record({
    kind: fc.constant('check' as const),
    check: fc.constantFrom('bite', 'eyes'),
    answer: fc.constantFrom('sound', 'level'),
    detail: fc.constant(''),
  }),
  fc.record({
    kind: fc.constant('note' as const),
    criterion: fc.constant(null),
    text: fc.string({ minLength: 1, maxLength: 5 }),
  }),
  fc.record({ kind: fc.constant('manner' as const), manner: fc.constantFrom('relaxed' as const, 'tense' as const) }),
);
const heldCards = fc
  .uniqueArray(
    fc.record({
      subject: fc.constantFrom(fern.subject, yarrow.subject, elsewhere),
      body: swappable,
      counter: fc.integer({ min: 1, max: 9 }),
      deviceId: fc.constantFrom('first', 'second'),
    }),
    { selector: ({ subject, body }) => `${subject} ${entryField(body)}` },
  )
  .map((list) => list.map(({ body, ...rest }): HeldAnswer => ({ ...rest, field: entryField(body), body })));

/** The register table after the entries. */
function after(before: readonly HeldAnswer[], one = fern, other = yarrow): HeldAnswer[] {
  const swapped = swapCards(before, one, other);
  const replaced = (answer: HeldAnswer) =>
    swapped.some((entry) => entry.subject === answer.subject && entry.field === answer.field);
  return [...before.filter((answer) => !replaced(answer)), ...swapped];
}

const said = (list: readonly HeldAnswer[], subject: string) =>
  list
    .filter((answer) => answer.subject === subject && saysSomething(answer.body))
    .map(({ field, body, deviceId }) => ({ field, body, deviceId }))
    .toSorted((a, b) => a.field.localeCompare(b.field));

describe('two cards of one seat that change places', () => {
  it('SC3: what was said of a dog’s testicles goes to no bitch, and stays in the history only', () => {
    const testicles = held(moss.subject, { kind: 'check', check: 'testicles', answer: 'both-down', detail: '' });
    const list = after([testicles, held(moss.subject, score(5))], moss, fern);
    expect(said(list, fern.subject).map(({ field }) => field)).toEqual(['score:neck']);
    expect(said(list, moss.subject)).toEqual([]);
  });

  it('SC3: two cards that say nothing give nothing to write', () => {
    expect(swapCards([held(elsewhere, score(5))], fern, yarrow)).toEqual([]);
  });

  it('SC2: a cleared answer does not come back, and every entry is the newest of its register', () => {
    const list = [held(fern.subject, score(5), { counter: 3 }), held(yarrow.subject, score(null), { counter: 8 })];
    expect(swapCards(list, fern, yarrow).map(({ subject, counter, body }) => [subject, counter, body])).toEqual([
      [yarrow.subject, 9, score(5)],
      [fern.subject, 4, score(null)],
    ]);
  });

  it('SC3, BL9: each says exactly what the other said, made by the same devices; nothing else changes; a second change undoes it', () => {
    fc.assert(
      fc.property(heldCards, (before) => {
        const once = after(before);
        expect(said(once, fern.subject)).toEqual(said(before, yarrow.subject));
        expect(said(once, yarrow.subject)).toEqual(said(before, fern.subject));
        expect(once.filter(({ subject }) => subject === elsewhere)).toEqual(
          before.filter(({ subject }) => subject === elsewhere),
        );
        const twice = after(once);
        expect(said(twice, fern.subject)).toEqual(said(before, fern.subject));
        expect(said(twice, yarrow.subject)).toEqual(said(before, yarrow.subject));
        for (const { subject, field, counter } of swapCards(before, fern, yarrow)) {
          const standing = before.find((answer) => answer.subject === subject && answer.field === field);
          expect(counter).toBeGreaterThan(standing?.counter ?? 0);
        }
      }),
    );
  });

  it.each<[EntryBody, EntryBody]>([
    [
      { kind: 'score', criterion: 'neck', value: null, cannotJudge: true },
      { kind: 'score', criterion: 'neck', value: null, cannotJudge: false },
    ],
    [
      { kind: 'free', criterion: 'neck', value: 2, cannotJudge: false },
      { kind: 'free', criterion: 'neck', value: null, cannotJudge: false },
    ],
    [
      { kind: 'overall', value: 6, cannotJudge: false },
      { kind: 'overall', value: null, cannotJudge: false },
    ],
    [
      { kind: 'check', check: 'bite', answer: 'level', detail: 'just' },
      { kind: 'check', check: 'bite', answer: null, detail: '' },
    ],
    [
      { kind: 'note', criterion: 'neck', text: 'long' },
      { kind: 'note', criterion: 'neck', text: '' },
    ],
    [
      { kind: 'manner', manner: 'tense' },
      { kind: 'manner', manner: null },
    ],
    [fair, { kind: 'fair', fair: true, why: '' }],
    [choice, { kind: 'choice', puppy: null, reason: '', chance: null }],
  ])('SC3: where the other card said nothing, %j is cleared', (said, nothing) => {
    const by = { deviceId: 'second', counter: 4 };
    expect(swapCards([held(fern.subject, said, by)], fern, yarrow)).toEqual([
      { subject: yarrow.subject, field: entryField(said), counter: 1, body: said, deviceId: 'second' },
      { subject: fern.subject, field: entryField(said), counter: 5, body: nothing, deviceId: 'second' },
    ]);
  });

  it('SC3, BL9: of a bitch and a dog, what was said of testicles is cleared at the dog by the device that made it, and nothing is put anywhere', () => {
    const testicles = { kind: 'check', check: 'testicles', answer: 'one-felt', detail: '' } as const;
    const cleared = {
      subject: moss.subject,
      field: 'check:testicles',
      counter: 2,
      body: { ...testicles, answer: null },
      deviceId: 'first',
    };
    expect(swapCards([held(moss.subject, testicles)], moss, fern)).toEqual([cleared]);
    expect(swapCards([held(moss.subject, testicles)], fern, moss)).toEqual([cleared]);
    expect(swapCards([held(fern.subject, testicles)], fern, moss).map(({ subject, body }) => [subject, body])).toEqual([
      [moss.subject, testicles],
      [fern.subject, { ...testicles, answer: null }],
    ]);
  });

  it('SC3: registers are written in the order of their names', () => {
    const fields = swapCards(
      [held(fern.subject, { kind: 'manner', manner: 'tense' }), held(yarrow.subject, fair)],
      fern,
      yarrow,
    ).map(({ field }) => field);
    expect(fields).toEqual(['fair', 'fair', 'manner', 'manner']);
  });
});
