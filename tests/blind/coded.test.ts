import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { readEverything } from '#tests/support/readEverything';
import { playToReveal } from '#tests/support/scoreCards';
import { quillmarshPuppies, seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

/** What would tell a seat which puppy is which. Marks of one common word are left out: they could stand anywhere. */
const tells = quillmarshPuppies
  .slice(0, 6)
  .flatMap(({ name, secondMark }) => [name, ...(secondMark.includes(' ') ? [secondMark] : [])]);

async function codedDay(server: TestServer) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 6, medium: 'photographs' });
  const { id, owner } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, slots, order, puppies } =
    await owner.api.setup.get.query({ id });
  const terms = slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({
    taker,
    seatId,
    purpose,
    sex,
    condition,
    byWhen,
    ifFails,
  }));
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: terms,
    order,
    plan: { ...usualPlan, identity: 'coded' },
  });
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: puppies[5]?.id ?? '', reason: 'not well' });
  return quillmarsh;
}

/** Everything a seat can read, by every query there is. */
async function readAll(client: TestClient, id: string): Promise<string> {
  const view = await client.api.evaluation.get.query({ id });
  return (await readEverything(client, { id, slotId: view.slots[0]?.id, medium: 'photographs' })).join('\n');
}

it('BL2: where puppies are shown by code, nothing a seat can read names one, before and while it scores; the owner reads the names', async () => {
  await using server = await startTestServer();
  const quillmarsh = await codedDay(server);
  const { id, owner, seats } = quillmarsh;
  const mentor = seats['mentor'] ?? owner;
  for (const stage of ['preparing', 'open']) {
    if (stage === 'open') await owner.api.evaluation.openRound.mutate({ id });
    const told = await readAll(mentor, id);
    for (const word of tells) expect([stage, word, told.includes(word)]).toEqual([stage, word, false]);
    expect(await readAll(owner, id)).toContain('Fern');
  }
});

it('BL2: letters and order are each seat’s own, keep over the day, and open to names at the reveal, which says what was hidden', async () => {
  await using server = await startTestServer();
  const quillmarsh = await codedDay(server);
  const { id, owner, seats } = quillmarsh;
  const [mentor, photographer] = [seats['mentor'] ?? owner, seats['photographer'] ?? owner];
  const letters = async (client: TestClient) =>
    (await client.api.evaluation.get.query({ id })).puppies.map((puppy) => `${puppy.id} ${puppy.name}`).toSorted();
  const before = await letters(mentor);
  expect(before.map((line) => line.slice(33)).toSorted()).toEqual([
    'Puppy A',
    'Puppy B',
    'Puppy C',
    'Puppy D',
    'Puppy E',
    'Puppy F',
  ]);
  expect(await letters(photographer)).not.toEqual(before);
  await playToReveal(quillmarsh, ({ twoSided, puppy }) =>
    twoSided ? 0 : 2 + (puppy.charCodeAt(puppy.length - 1) % 5),
  );
  const after = await mentor.api.evaluation.get.query({ id });
  expect(after.puppies.map((puppy) => puppy.name)).toContain('Fern');
  expect((await mentor.api.board.get.query({ id })).blindTo.join(' ')).toContain('by a code of their own');
});

it('BL2: a seat that may not know which puppy is which brings no pictures', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await codedDay(server);
  expect((await seats['photographer']?.api.photo.list.query({ id }))?.may.add).toBe(false);
  expect((await owner.api.photo.list.query({ id })).may.add).toBe(true);
});
