import 'fake-indexeddb/auto';
import { createTRPCClient, httpBatchLink } from '@trpc/client';
import { readdirSync } from 'node:fs';
import { afterEach, expect, it, vi } from 'vitest';
import { picturesFolder } from '#db/picturesFolder';
import { fetchInTime } from '#app/_data/fetchInTime';
import { hearVersion, isOtherVersion } from '#app/_data/otherVersion';
import { Outbox } from '#app/_data/outbox';
import { openOutboxStore } from '#app/_data/outboxStore';
import { refusalText } from '#app/_data/refusalText';
import { after } from '#app/_data/timers';
import type { EntryOutcome, SentEntry } from '#lib/contract/entry';
import { protocolHeader, protocolVersion } from '#lib/contract/wire';
import type { AppRouter } from '#server/api/router';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { listProcedures } from '#tests/support/listProcedures';
import { plainPicture } from '#tests/support/sendPhoto';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const own = String(protocolVersion);
const older = String(protocolVersion - 1);

/** A page's calls as the app makes them, from a page of some version. */
function pageOf({ url, cookie }: Pick<TestClient, 'url' | 'cookie'>, version: string) {
  return createTRPCClient<AppRouter>({
    links: [
      httpBatchLink({
        url: `${url}/api/trpc`,
        headers: { origin: url, cookie: cookie(), [protocolHeader]: version },
        fetch: fetchInTime,
      }),
    ],
  });
}

afterEach(() => hearVersion(own));

it('LV2: a page hears from any answer of the server’s that it is of another version, and from the next that it is not; what says no version says nothing', async () => {
  await using server = await startTestServer();
  await pageOf(server.stranger(), older).session.me.query();
  expect(isOtherVersion()).toBe(false);
  hearVersion(String(protocolVersion + 1));
  expect(isOtherVersion()).toBe(true);
  hearVersion(null);
  expect(isOtherVersion()).toBe(true);
  await expect(pageOf(server.stranger(), own).session.leave.mutate()).rejects.toMatchObject({
    data: { code: 'not-signed-in' },
  });
  expect(isOtherVersion()).toBe(false);
});

it('LV2: from a page of another version every change is refused unread and changes nothing, and what it reads is answered', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const before = dataOf(server.runtime.db);
  for (const version of [older, String(protocolVersion + 1), '']) {
    for (const { path } of listProcedures().filter((one) => one.kind === 'mutation')) {
      const headers = {
        origin: owner.url,
        cookie: owner.cookie(),
        'content-type': 'application/json',
        [protocolHeader]: version,
      };
      const answer = await fetch(`${owner.url}/api/trpc/${path}`, {
        method: 'POST',
        headers,
        body: JSON.stringify({ what: 'this server knows nothing of' }),
      });
      expect([path, answer.status, answer.headers.get(protocolHeader), await answer.text()]).toEqual([
        path,
        409,
        own,
        expect.stringContaining('"code":"other-version"'),
      ]);
    }
  }
  const tag = new URLSearchParams({ evaluation: id, puppy: 'of another shape', view: 'left-side' });
  const picture = await fetch(`${owner.url}/api/photo/${systemRandom.id()}?${tag}`, {
    method: 'POST',
    body: Buffer.from(await plainPicture()),
    headers: { origin: owner.url, cookie: owner.cookie(), 'content-type': 'image/jpeg', [protocolHeader]: older },
  });
  expect([picture.status, await picture.text()]).toEqual([409, expect.stringContaining('other-version')]);
  expect(dataOf(server.runtime.db)).toBe(before);
  expect(
    readdirSync(picturesFolder(server.runtime.db).replace(/pictures$/, '')).filter((name) => name === 'pictures'),
  ).toEqual([]);
  expect((await pageOf(owner, older).evaluation.get.query({ id })).id).toBe(id);
  expect(server.logged).toEqual([]);
});

it('LV2: what says no version is read as it comes', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const answered = await callProcedure(owner, { path: 'card.submit', kind: 'mutation' }, { id, entries: [] });
  expect(answered.code).toBe('bad-input');
});

it('SC6, LV2: what was entered on a page of another version is never taken for faulty: it waits on the device, and the page that is loaded anew sends it', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const view = await owner.api.evaluation.get.query({ id });
  const { round, viewer } = view;
  const seat = { evaluationId: id, seatId: viewer.seatId ?? '' };
  const name = systemRandom.id();
  let now = 1;
  const open = (send: (entries: readonly SentEntry[]) => Promise<readonly EntryOutcome[]>) =>
    new Outbox({
      ...seat,
      store: openOutboxStore(name),
      now: () => now,
      after,
      spread: () => 0,
      freshId: systemRandom.id,
      send,
      alone: (work) => work(),
      tellOthers: () => undefined,
      onAnswered: () => undefined,
      onDoubt: () => undefined,
    });
  const edit = {
    subject: round?.showings[0]?.id ?? '',
    roundId: round?.id ?? '',
    body: { kind: 'note', criterion: null, text: 'typed before the server was renewed' },
  } as const;

  // In the older version a note had another shape, which this server would refuse as faulty, for good.
  const before = pageOf(owner, older);
  const olderPage = open((entries) =>
    before.card.submit.mutate({ id, entries: entries.map((entry) => ({ ...entry, words: 1 })) }),
  );
  olderPage.start();
  await vi.waitFor(() => expect(olderPage.getView().loaded).toBe(true));
  await olderPage.add(edit);
  expect(olderPage.getView().state).toMatchObject({ refusal: 'other-version', rows: [{ status: 'waiting' }] });
  expect(refusalText({ data: { code: 'other-version' } })).toMatch(/another version .* than this page/);
  olderPage.stop();

  now += 60_000;
  const today = pageOf(owner, own);
  const newPage = open((entries) => today.card.submit.mutate({ id, entries: [...entries] }));
  newPage.start();
  await vi.waitFor(() => expect(newPage.getView().state.rows.map((row) => row.status)).toEqual(['applied']));
  newPage.stop();
  const { answers } = await owner.api.card.mine.query({ id });
  expect(answers.map((answer) => answer.body)).toContainEqual(edit.body);
});
