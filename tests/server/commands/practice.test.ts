import { expect, it } from 'vitest';
import type { PracticeAnswer } from '#lib/contract/practice';
import { dataOf } from '#tests/support/dataOf';
import { bringTo } from '#tests/support/stages';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const answer = (
  value: number | null,
  criterion = 'neck',
  picture: PracticeAnswer['picture'] = 'first',
): PracticeAnswer => ({ picture, criterion, value });

it('BL1: no seat, the owner included, sees another’s practice before its own lock; then it does, whoever locked first', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const mentor = seats['mentor'];
  await mentor?.api.practice.lock.mutate({ id, answers: [answer(3)] });
  const before = await owner.api.practice.get.query({ id });
  expect(before).toMatchObject({ open: true, own: null, others: null });
  await owner.api.practice.lock.mutate({ id, answers: [answer(-1)] });
  expect((await owner.api.practice.get.query({ id })).others?.map((one) => one.answers)).toEqual([[answer(3)]]);
  expect((await mentor?.api.practice.get.query({ id }))?.others?.map((one) => one.answers)).toEqual([[answer(-1)]]);
  expect((await seats['photographer']?.api.practice.get.query({ id }))?.others).toBeNull();
});

it('BL4: until its own lock a seat’s practice is the same to the byte, whatever the others answered', async () => {
  const seen = async (value: number) => {
    await using server = await startTestServer({ seed: 'practice' });
    const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    await seats['mentor']?.api.practice.lock.mutate({ id, answers: [answer(value)] });
    return JSON.stringify([await owner.api.practice.get.query({ id }), await owner.api.evaluation.get.query({ id })]);
  };
  expect(await seen(-3)).toBe(await seen(2));
});

it('BL7: practice is locked once, before scoring, on criteria that are offered and on their scale', async () => {
  await using server = await startTestServer();
  const { id, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const mentor = seats['mentor'];
  const before = dataOf(server.runtime.db);
  for (const [answers, refused] of [
    [[answer(4)], 'out-of-scale'],
    [[answer(1, 'testicles')], 'bad-input'],
    [[answer(1), answer(2)], 'bad-input'],
  ] as const) {
    await expect(mentor?.api.practice.lock.mutate({ id, answers: [...answers] })).rejects.toMatchObject(code(refused));
  }
  expect(dataOf(server.runtime.db)).toBe(before);
  await mentor?.api.practice.lock.mutate({ id, answers: [answer(null)] });
  await expect(mentor?.api.practice.lock.mutate({ id, answers: [answer(1)] })).rejects.toMatchObject(
    code('wrong-phase'),
  );
  await using later = await startTestServer();
  const open = await bringTo(later, 'open');
  await expect(
    open.seats['mentor']?.api.practice.lock.mutate({ id: open.id, answers: [answer(1)] }),
  ).rejects.toMatchObject(code('wrong-phase'));
});

it('BL9: whoever opens a seat issued anew reads no practice that its earlier device locked, nor the others’ by it', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await seats['mentor']?.api.practice.lock.mutate({ id, answers: [answer(3)] });
  await seats['photographer']?.api.practice.lock.mutate({ id, answers: [answer(-2)] });
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const later = server.stranger();
  await later.api.session.join.mutate({ token: (await owner.api.setup.reissue.mutate({ id, seatId })).token });
  expect(await later.api.practice.get.query({ id })).toMatchObject({ open: false, own: null, others: null });
});
