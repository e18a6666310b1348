import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { dataOf } from '#tests/support/dataOf';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

/** Saves the set-up as it is, save the terms of its one place. */
async function reword({ id, owner }: Quillmarsh, byWhen: string): Promise<void> {
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, slots, order } =
    await owner.api.setup.get.query({ id });
  const terms = slots.map(({ taker, seatId, purpose, sex, condition, ifFails }) => ({
    taker,
    seatId,
    purpose,
    sex,
    condition,
    ifFails,
    byWhen,
  }));
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: terms,
    order,
    plan: usualPlan,
  });
}

const confirmed = async ({ id, owner }: Quillmarsh) =>
  (await owner.api.evaluation.get.query({ id })).parties.map((party) => party.confirmed);

it('BL9: a seat that picks nothing confirms nothing, and nobody confirms for another', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, seats, owner } = quillmarsh;
  await reword(quillmarsh, 'ten weeks');
  const before = dataOf(server.runtime.db);
  await expect(seats['mentor']?.api.setup.confirmPickOrder.mutate({ id })).rejects.toMatchObject(code('not-allowed'));
  expect(dataOf(server.runtime.db)).toBe(before);
  await owner.api.setup.confirmPickOrder.mutate({ id });
  expect(await confirmed(quillmarsh)).toEqual([false]);
});

it('BL9: a round does not open over an order that a party has not confirmed, unless the owner says so, on the record', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner } = quillmarsh;
  await reword(quillmarsh, 'ten weeks');
  await expect(owner.api.evaluation.openRound.mutate({ id })).rejects.toMatchObject(code('not-confirmed'));
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const opened = (await owner.api.record.list.query({ id })).find((entry) => entry.kind === 'round-opened');
  expect(opened?.detail).toContain('co-owner');
});

it('BL9: a change of any term asks again; the same words need no second yes', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, seats, owner } = quillmarsh;
  await reword(quillmarsh, 'ten weeks');
  expect(await confirmed(quillmarsh)).toEqual([false]);
  await seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
  expect(await confirmed(quillmarsh)).toEqual([true]);
  await reword(quillmarsh, 'twelve weeks');
  expect(await confirmed(quillmarsh)).toEqual([false]);
  await reword(quillmarsh, 'ten weeks');
  expect(await confirmed(quillmarsh)).toEqual([true]);
  await owner.api.evaluation.openRound.mutate({ id });
  await expect(seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
});
