import fc from 'fast-check';
import type { EntryBody } from '#lib/contract/entry';

/** An id, or another number in hexadecimal digits. */
export const hex = (length: number) =>
  fc.string({ unit: fc.constantFrom(...'0123456789abcdef'), minLength: length, maxLength: length });
const text = fc.string({ unit: 'grapheme', maxLength: 40 });
/** An answer as a person may give it. */
export const body: fc.Arbitrary<EntryBody> = fc.oneof(
  fc.record({
    kind: fc.constant('score' as const),
    criterion: fc.constantFrom('neck', 'topline'),
    value: fc.option(fc.integer({ min: -3, max: 11 })),
    cannotJudge: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant('check' as const),
    check: fc.constantFrom('bite', 'eyes'),
    answer: fc.option(fc.constant('level')),
    detail: text,
  }),
  fc.record({ kind: fc.constant('note' as const), criterion: fc.option(fc.constant('neck')), text }),
  fc.record({ kind: fc.constant('fair' as const), fair: fc.boolean(), why: text }),
  fc.record({
    kind: fc.constant('choice' as const),
    puppy: fc.option(hex(32)),
    reason: text,
    chance: fc.option(fc.integer({ min: 0, max: 100 })),
  }),
);
/** One seat's answers of one round. */
export const cards = fc.record({
  roundId: hex(32),
  seatId: hex(32),
  answers: fc.array(fc.record({ subject: hex(32), body }), { maxLength: 12 }),
});
