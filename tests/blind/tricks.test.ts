import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { KeptStore } from '#app/_data/keptStore';
import { witnessHead } from '#app/_data/witness';
import { usualPlan } from '#lib/contract/plan';
import { restoreData, RestoreRefused } from '#server/backup/restoreData';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';
import { testClient } from '#tests/support/testClient';

/* What an owner who wants to know too early would try. */

const code = (expected: string) => ({ data: { code: expected } });

it('BL9: the trick of opening a seat’s link herself is refused in her browser, leaves the link alive, and is on the record', async () => {
  await using server = await startTestServer();
  const { owner, links } = await seedQuillmarsh(await server.owner(), { join: false });
  const token = new URL(links['mentor'] ?? '').hash.slice(1);
  await expect(owner.api.session.join.mutate({ token })).rejects.toMatchObject(code('in-use'));
  expect(
    server.runtime.db.$client.prepare("SELECT count(*) AS n FROM record WHERE kind = 'link-refused'").get(),
  ).toEqual({ n: 1 });
  await server.stranger().api.session.join.mutate({ token });
});

it('BL9: the trick of letting her own second device into a seat fails: only the seat’s first device lets one in', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'open');
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const { code: spoken } = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const second = server.stranger();
  await second.api.session.joinByCode.mutate({ code: spoken });
  const requestId = (await seats['mentor']?.api.session.devices.query())?.asking[0]?.id ?? '';
  await expect(owner.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-found'),
  );
  await expect(second.api.card.mine.query({ id })).rejects.toMatchObject(code('not-signed-in'));
});

it('BL6: the trick of peeking at cached statistics finds none: until the reveal nothing is computed, stored or handed out', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'closed');
  for (const peek of [
    owner.api.board.get,
    owner.api.board.coefficients,
    owner.api.board.commitments,
    owner.api.decision.get,
  ])
    await expect(peek.query({ id })).rejects.toMatchObject(code('wrong-phase'));
  const slotId = (await owner.api.evaluation.get.query({ id })).slots[0]?.id ?? '';
  await expect(owner.api.look.propose.query({ id, slotId, medium: 'table' })).rejects.toMatchObject(
    code('wrong-phase'),
  );
  expect(
    server.runtime.db.$client
      .prepare('SELECT (SELECT count(*) FROM result) AS results, (SELECT count(*) FROM snapshot) AS snapshots')
      .get(),
  ).toEqual({ results: 0, snapshots: 0 });
});

it('BL7: the trick of restoring a backup after the reveal is refused; where the file was swapped by hand, every device that saw the reveal notices', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-trick-'));
  try {
    await using server = await startTestServer();
    const { id, owner } = await bringTo(server, 'closed');
    const backup = join(folder, 'before.db');
    const file = join(folder, 'evenstack.db');
    server.runtime.db.$client.exec(`VACUUM INTO '${backup}'`);
    await owner.api.evaluation.revealRound.mutate({ id });
    const { head } = await owner.api.evaluation.get.query({ id });
    server.runtime.db.$client.exec(`VACUUM INTO '${file}'`);
    await expect(restoreData({ backup, file, at: 1 })).rejects.toThrow(RestoreRefused);
    copyFileSync(backup, file);
    // What the device kept after the reveal, against a server that has the earlier file.
    const kept = new Map<string, unknown>([[`head ${id}`, { seen: { ...head, at: 5 }, broken: false }]]);
    const store: KeptStore = {
      get: (key) => Promise.resolve(kept.get(key)),
      set: (key, value) => Promise.resolve(void kept.set(key, value)),
      update: (key, step) =>
        Promise.resolve(void kept.set(key, step(kept.get(key)))).then(() => kept.get(key) as ReturnType<typeof step>),
      remove: () => Promise.resolve(),
    };
    expect(
      await witnessHead(
        {
          evaluationId: id,
          head: { seq: head.seq - 1, hash: 'a'.repeat(64) },
          now: 6,
          hashAt: () => Promise.resolve(null),
        },
        store,
      ),
    ).toMatchObject({ seq: head.seq, hash: head.hash });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

it('BL7: the trick of reopening after a look at the result is refused; before it, it voids every lock and commitment, for all to read', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  await owner.api.evaluation.reopenRound.mutate({ id });
  const read = await seats['photographer']?.api.record.list.query({ id });
  expect(read?.some((line) => line.kind === 'round-reopened')).toBe(true);
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id, systemRandom.id());
  await owner.api.evaluation.revealRound.mutate({ id });
  const before = dataOf(server.runtime.db);
  await expect(owner.api.evaluation.reopenRound.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL8: the trick of reading the next pair, or who answered what, while a look is open finds the open look alone', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const { puppies, slots } = await owner.api.evaluation.get.query({ id });
  const [first, second, third] = puppies;
  const pairs = [{ firstPuppyId: first?.id ?? '', secondPuppyId: second?.id ?? '' }];
  await owner.api.look.open.mutate({ id, slotId: slots[0]?.id ?? '', medium: 'table', pairs });
  const [look] = await owner.api.look.list.query({ id });
  await seats['mentor']?.api.look.answer.mutate({
    id,
    answer: { id: systemRandom.id(), lookId: look?.id ?? '', choice: 'first', criterion: null, madeAt: 1 },
  });
  const heard = await owner.api.look.list.query({ id });
  expect(heard.map(({ answers, own }) => [answers, own])).toEqual([[null, null]]);
  const next = {
    id,
    slotId: slots[0]?.id ?? '',
    medium: 'table' as const,
    pairs: [{ firstPuppyId: first?.id ?? '', secondPuppyId: third?.id ?? '' }],
  };
  await expect(owner.api.look.open.mutate(next)).rejects.toMatchObject(code('still-open'));
});

it('BL7: the trick of opening the lesson early is refused to learner and mentor alike', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['co-owner'] });
  const {
    name,
    heldOn,
    medium,
    callLink,
    callNumber,
    tableNote,
    sheetId,
    purposes,
    order,
    seats: faces,
  } = await owner.api.setup.get.query({ id });
  const learnerSeatId = faces.find((seat) => seat.owner)?.id ?? '';
  const plan = { ...usualPlan, kind: 'lesson', learnerSeatId } as const;
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: [],
    order,
    plan,
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, seats['co-owner']]) if (client) await scoreCard(client, id, steadyCell);
  await lockCard(owner, id);
  for (const client of [owner, seats['co-owner']]) {
    await expect(client?.api.lesson.get.query({ id })).rejects.toMatchObject(code('wrong-phase'));
    await expect(client?.api.board.get.query({ id })).rejects.toMatchObject(code('wrong-phase'));
  }
  await expect(owner.api.evaluation.revealRound.mutate({ id })).rejects.toMatchObject(code('still-open'));
});

it('DE1: the trick of going through the demo leads nowhere: the demo’s cookie is nobody here, and no procedure of the demo is', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const visitor = testClient(server.url, `evenstack_demo=${owner.cookie().split('=')[1]}`);
  expect(await visitor.api.session.me.query()).toMatchObject({ owner: false, seat: null, demo: false });
  await expect(visitor.api.evaluation.get.query({ id })).rejects.toMatchObject(code('not-signed-in'));
  await expect(owner.api.demo.playToReveal.mutate()).rejects.toMatchObject(code('not-found'));
  await expect(owner.api.demo.sitIn.mutate({ id })).rejects.toMatchObject(code('not-found'));
});
