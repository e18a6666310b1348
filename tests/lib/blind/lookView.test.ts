import { describe, expect, it } from 'vitest';
import { type LookFacts, lookView } from '#lib/blind/lookView';
import { lookViewSchema } from '#lib/contract/lookView';
import { fern, id, mentor, moss } from '#tests/support/evaluationFacts';

const look: LookFacts = {
  id: id('6'),
  batchId: id('7'),
  slotId: id('5'),
  medium: 'table',
  state: 'open',
  firstPuppyId: fern.id,
  secondPuppyId: moss.id,
  firstOnLeft: false,
  repeat: false,
};
const answers = [
  { seat: id('3'), choice: 'tie', criterion: null },
  { seat: mentor.id, choice: 'first', criterion: 'neck' },
  { seat: id('1'), choice: 'first', criterion: 'ears' },
] as const;
const told = {
  position: 0,
  anonymous: false,
  mayAnswer: true,
  own: { choice: 'first', criterion: null },
  answers,
} as const;

describe('one second look', () => {
  it.each(['open', 'closed'] as const)(
    'BL8: while it is %s it shows its viewer’s own answer and nobody else’s, whatever it is given',
    (state) => {
      for (const anonymous of [false, true])
        expect(lookView({ ...look, state }, { ...told, anonymous })).toMatchObject({
          own: { choice: 'first', criterion: null },
          answers: null,
        });
      expect(lookView({ ...look, state }, { ...told, own: null }).own).toBeNull();
    },
  );

  it.each([
    ['open', true, true],
    ['open', false, false],
    ['closed', true, false],
    ['revealed', true, false],
  ] as const)('BL8: while %s, where a seat may answer (%s), it is asked: %s', (state, mayAnswer, asked) => {
    expect(lookView({ ...look, state }, { ...told, mayAnswer }).mayAnswer).toBe(asked);
  });

  it('BL8: once revealed it tells every answer, by seat', () => {
    expect(lookView({ ...look, state: 'revealed' }, told).answers).toEqual(answers);
  });

  it('BL9: in an anonymous panel it tells answers by nobody, in an order of what they say', () => {
    const anonymous = lookView({ ...look, state: 'revealed' }, { ...told, anonymous: true }).answers;
    expect(anonymous).toEqual([
      { seat: null, choice: 'first', criterion: 'ears' },
      { seat: null, choice: 'first', criterion: 'neck' },
      { seat: null, choice: 'tie', criterion: null },
    ]);
    expect(
      lookView({ ...look, state: 'revealed' }, { ...told, answers: answers.toReversed(), anonymous: true }).answers,
    ).toEqual(anonymous);
  });

  it('BL2: it is built field by field', () => {
    const quince = { quince: 'quince' };
    const view = lookView(
      { ...look, ...quince, state: 'revealed', repeat: true },
      {
        ...told,
        own: { ...told.own, ...quince },
        answers: answers.map((answer) => ({ ...answer, ...quince })),
        ...quince,
      },
    );
    expect(lookViewSchema.safeParse(view).error).toBeUndefined();
    expect(view).toEqual({
      id: id('6'),
      batchId: id('7'),
      slotId: id('5'),
      medium: 'table',
      state: 'revealed',
      firstPuppyId: fern.id,
      secondPuppyId: moss.id,
      leftPuppyId: moss.id,
      repeat: true,
      mayAnswer: false,
      own: { choice: 'first', criterion: null },
      answers,
    });
  });

  it.each([
    ['table', 1, moss],
    ['photographs', 0, moss],
    ['photographs', 1, fern],
  ] as const)('BL8: who stands on the left, %s, seat %i', (medium, position, left) => {
    expect(lookView({ ...look, medium }, { ...told, position }).leftPuppyId).toBe(left.id);
  });
});
