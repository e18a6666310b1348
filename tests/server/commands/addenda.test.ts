import { expect, it } from 'vitest';
import type { AddendumInput } from '#lib/contract/addendum';
import { dataOf } from '#tests/support/dataOf';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

it('SC3: after the seal a veterinary answer, a correction and a changed home are added, and no board, decision or snapshot changes', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'sealed');
  const { puppies } = await owner.api.evaluation.get.query({ id });
  const puppyId = puppies[0]?.id ?? '';
  const written: AddendumInput[] = [
    { kind: 'veterinary', puppyId, check: 'bite', text: 'closes now', by: 'the practice', choice: { kind: 'stays' } },
    { kind: 'correction', puppyId: null, text: 'it was the day before' },
    { kind: 'home', puppyId, text: 'came back, and went to a friend' },
  ];
  const before = [await owner.api.board.get.query({ id }), await owner.api.decision.get.query({ id })];
  const data = dataOf(server.runtime.db);
  for (const addendum of written)
    await expect(seats['mentor']?.api.addendum.write.mutate({ id, addendum })).rejects.toMatchObject(
      code('not-allowed'),
    );
  await expect(
    owner.api.addendum.write.mutate({ id, addendum: { kind: 'behaviour', puppyId, text: 'calm', by: 'the family' } }),
  ).rejects.toMatchObject(code('wrong-phase'));
  expect(dataOf(server.runtime.db)).toBe(data);
  for (const addendum of written) await owner.api.addendum.write.mutate({ id, addendum });
  expect([await owner.api.board.get.query({ id }), await owner.api.decision.get.query({ id })]).toEqual(before);
  expect(await seats['mentor']?.api.addendum.list.query({ id })).toMatchObject(written);
  const lines = (await owner.api.record.list.query({ id }))
    .filter(({ kind }) => kind === 'addendum-written')
    .map(({ detail }) => detail.replace(/ \[addendum [0-9a-f]{64}\]$/, ''));
  expect(lines).toEqual([
    `a veterinary answer, ${puppies[0]?.name}, bite: the hold stays`,
    'a correction, no one puppy',
    `a home, ${puppies[0]?.name}`,
  ]);
});

it('SA5: how a puppy behaves is written by the owner from the reveal on, read by all who read the result, and moves no number', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const addendum: AddendumInput = {
    kind: 'behaviour',
    puppyId,
    text: 'seeks people, sleeps through thunder',
    by: 'the family next door',
  };
  await expect(seats['mentor']?.api.addendum.write.mutate({ id, addendum })).rejects.toMatchObject(code('not-allowed'));
  const before = await owner.api.board.get.query({ id });
  await owner.api.addendum.write.mutate({ id, addendum });
  expect(await owner.api.board.get.query({ id })).toEqual(before);
  expect(await seats['mentor']?.api.addendum.list.query({ id })).toMatchObject([addendum]);
});
