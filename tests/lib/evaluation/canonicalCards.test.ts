import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cardsHash as onDevice } from '#app/_data/keptPromises';
import { entryBodySchema, type EntryBody } from '#lib/contract/entry';
import { canonicalCards } from '#lib/evaluation/cards';
import { cardsHash as onServer } from '#server/write/commitCards';

const hex = (length: number) => fc.string({ unit: fc.constantFrom(...'0123456789abcdef'), minLength: length, maxLength: length });
const text = fc.string({ unit: 'grapheme', maxLength: 40 });
const body: fc.Arbitrary<EntryBody> = fc.oneof(
  fc.record({ kind: fc.constant('score' as const), criterion: fc.constantFrom('neck', 'topline'), value: fc.option(fc.integer({ min: -3, max: 11 })), cannotJudge: fc.boolean() }),
  fc.record({ kind: fc.constant('check' as const), check: fc.constantFrom('bite', 'eyes'), answer: fc.option(fc.constant('level')), detail: text }),
  fc.record({ kind: fc.constant('note' as const), criterion: fc.option(fc.constant('neck')), text }),
  fc.record({ kind: fc.constant('fair' as const), fair: fc.boolean(), why: text }),
  fc.record({ kind: fc.constant('choice' as const), puppy: fc.option(hex(32)), reason: text, chance: fc.option(fc.integer({ min: 0, max: 100 })) }),
);
const cards = fc.record({ roundId: hex(32), seatId: hex(32), answers: fc.array(fc.record({ subject: hex(32), body }), { maxLength: 12 }) });

it('BL7: one set of answers has one text, in whatever order and however the parts of an answer are laid out', () => {
  fc.assert(
    fc.property(cards, (one) => {
      const turned = one.answers.toReversed().map(({ subject, body: said }) => ({ subject, body: Object.fromEntries(Object.entries(said).toReversed()) as EntryBody }));
      expect(canonicalCards({ ...one, answers: turned })).toBe(canonicalCards(one));
    }),
  );
});

it('BL7: two cards that differ in one answer, the seat or the round have two texts', () => {
  fc.assert(
    fc.property(cards, fc.record({ subject: hex(32), body }), (one, more) => {
      const text = canonicalCards(one);
      expect(canonicalCards({ ...one, answers: [...one.answers, more] })).not.toBe(text);
      expect(canonicalCards({ ...one, seatId: one.roundId, roundId: one.seatId }) === text).toBe(one.seatId === one.roundId);
    }),
  );
});

it('BL7: what the server takes in of an answer and what the device typed have one text', () => {
  const typed = { kind: 'note', criterion: null, text: '  two\nlines \t' } as const;
  const answers = (said: EntryBody) => [{ subject: 'a'.repeat(32), body: said }];
  const ids = { roundId: 'b'.repeat(32), seatId: 'c'.repeat(32) };
  expect(canonicalCards({ ...ids, answers: answers(typed) })).toBe(canonicalCards({ ...ids, answers: answers(entryBodySchema.parse(typed)) }));
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

it('BL7: device and server make the same hash of the same cards', () => {
  fc.assert(
    fc.property(hex(32), cards, (nonce, one) => {
      expect(onDevice(nonce, one)).toBe(onServer(nonce, one));
    }),
  );
});
