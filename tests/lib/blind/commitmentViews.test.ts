import { expect, it } from 'vitest';
import { commitmentsView, openedView } from '#lib/blind/commitmentViews';
import { openedCommitmentSchema, publishedCommitmentSchema } from '#lib/contract/commitment';
import { breeder, coOwner, factsAt, id, locked, mentor, snapshotOf } from '#tests/support/evaluationFacts';

const quince = { quince: 'quince' };
const promise = (seat: string, by: 'device' | 'server') => ({
  seat,
  hash: seat.slice(0, 1).repeat(64),
  by,
  nonce: '0'.repeat(32),
  ...quince,
});
const commitments = [promise(mentor.id, 'device'), promise(coOwner.id, 'server')];

it.each([
  ['preparing', false],
  ['open', false],
  ['closed', true],
  ['revealed', true],
  ['sealed', true],
] as const)('BL2, BL7: %s: commitments are published: %s, without what opens them', (stage, published) => {
  const view = commitmentsView(factsAt(stage, { seats: [locked(mentor, 0), coOwner] }), commitments);
  const told = commitments.map(({ seat, hash, by }) => ({ seat, hash, by, locked: seat === mentor.id }));
  expect(view).toEqual(published ? told : null);
  for (const one of view ?? []) expect(publishedCommitmentSchema.safeParse(one).error).toBeUndefined();
});

const answer = (seatId: string, sign: string) => ({
  seatId,
  subject: id(sign),
  field: 'note',
  counter: 1,
  body: { kind: 'note' as const, criterion: null, text: sign },
});
const { seats } = snapshotOf();
const snapshot = snapshotOf({
  seats: seats.map((seat) => ({ ...seat, locked: seat.id === mentor.id, reissued: seat.id === coOwner.id })),
  answers: [answer(mentor.id, '1a'), answer(breeder.id, '1b'), answer(mentor.id, '1c')],
});

it('BL7: from the reveal on each commitment is opened with what it was made of', () => {
  const opened = openedView(snapshot, { commitments, wordsRemoved: new Set([coOwner.id]), only: null });
  const common = { roundId: id('f'), nonce: '0'.repeat(32) };
  expect(opened).toEqual([
    {
      ...common,
      seat: mentor.id,
      hash: '2'.repeat(64),
      by: 'device',
      locked: true,
      reissued: false,
      wordsRemoved: false,
      cards: [answer(mentor.id, '1a'), answer(mentor.id, '1c')].map(({ subject, body }) => ({ subject, body })),
    },
    {
      ...common,
      seat: coOwner.id,
      hash: '4'.repeat(64),
      by: 'server',
      locked: false,
      reissued: true,
      wordsRemoved: true,
      cards: [],
    },
  ]);
  for (const one of opened) expect(openedCommitmentSchema.safeParse(one).error).toBeUndefined();
});

it('BL9: in an anonymous panel a seat’s own card is opened to it and no other, and to a viewer without a commitment none', () => {
  const seen = (only: string) =>
    openedView(snapshot, { commitments, wordsRemoved: new Set(), only }).map(({ seat }) => seat);
  expect([seen(coOwner.id), seen(breeder.id), seen('')]).toEqual([[coOwner.id], [], []]);
});
