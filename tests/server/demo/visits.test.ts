import { existsSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { callHeader } from '#lib/contract/wire';
import type { DemoRole } from '#lib/contract/demoView';
import { builtInSheetIds } from '#server/commands/setup';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { holdTime, timed } from '#tests/support/latency';
import { startTestServer } from '#tests/support/startTestServer';
import { startDemoServer, type TestDemo } from './startDemoServer';

const day = 24 * 3_600_000;
const roles: readonly DemoRole[] = ['breeder', 'mentor', 'photographer', 'co-owner'];
const copiesIn = (demo: TestDemo) =>
  readdirSync(demo.folder, { withFileTypes: true }).filter((one) => one.isDirectory());

async function visit(demo: TestDemo, role: DemoRole) {
  const visitor = demo.stranger();
  await visitor.api.demo.enter.mutate({ role });
  return visitor;
}

beforeAll(async () => {
  // Makes the template that the tests below share.
  await using demo = await startDemoServer();
  await visit(demo, 'breeder');
});

it('DE1: a visitor without a copy stands in an empty lobby', async () => {
  await using demo = await startDemoServer();
  const stranger = demo.stranger();
  expect(await stranger.api.session.me.query()).toMatchObject({ owner: false, seat: null, demo: true });
  await expect(stranger.api.evaluation.list.query()).rejects.toThrow('not-signed-in');
  await expect(stranger.api.demo.get.query()).rejects.toThrow('not-signed-in');
  await expect(stranger.api.demo.playToReveal.mutate()).rejects.toThrow('not-signed-in');
  await expect(stranger.api.demo.sitIn.mutate({ id: 'a'.repeat(32) })).rejects.toThrow('not-signed-in');
  await expect(stranger.api.session.join.mutate({ token: 'x'.repeat(43) })).rejects.toThrow('link-dead');
  expect(copiesIn(demo)).toEqual([]);
});

it('DE1: every copy has the drawn pictures of its litter, and no other visitor reaches them', async () => {
  await using demo = await startDemoServer();
  const visitor = await visit(demo, 'mentor');
  const { openId } = await visitor.api.demo.get.query();
  const { photos } = await visitor.api.photo.list.query({ id: openId });
  expect(photos).toHaveLength(36);
  const fetchAs = (cookie: string) => fetch(`${demo.url}/api/photo/${photos[0]?.id}/large`, { headers: { cookie } });
  expect((await fetchAs(visitor.cookie())).headers.get('content-type')).toBe('image/webp');
  expect((await fetchAs((await visit(demo, 'mentor')).cookie())).status).toBe(404);
});

it('DE1: each server ignores the other’s cookie, and the demo leaves the main data alone', async () => {
  await using main = await startTestServer();
  await using demo = await startDemoServer();
  const owner = await main.owner();
  const before = dataOf(main.runtime.db);
  const visitor = await visit(demo, 'breeder');
  const secrets = [owner.cookie(), visitor.cookie()].map((cookie) => cookie.split('=')[1]);
  const asks = (url: string, cookie: string) =>
    callProcedure({ url, cookie: () => cookie }, { path: 'evaluation.list', kind: 'query' }, undefined);
  expect(owner.cookie()).toMatch(/^evenstack=/);
  expect(visitor.cookie()).toMatch(/^evenstack_demo=/);
  for (const secret of secrets) {
    const [inMain, inDemo] = [secret === secrets[0], secret === secrets[1]];
    for (const name of ['evenstack', 'evenstack_demo']) {
      expect((await asks(main.url, `${name}=${secret}`)).status).toBe(inMain && name === 'evenstack' ? 200 : 401);
      expect((await asks(demo.url, `${name}=${secret}`)).status).toBe(inDemo && name === 'evenstack_demo' ? 200 : 401);
    }
  }
  // A browser keeps both cookies for one host and sends both to both ports.
  const both = `${owner.cookie()}; ${visitor.cookie()}`;
  expect((await asks(main.url, both)).body).toBe((await asks(main.url, owner.cookie())).body);
  expect((await asks(demo.url, both)).body).toBe((await asks(demo.url, visitor.cookie())).body);
  expect(dataOf(main.runtime.db)).toBe(before);
});

it('DE1: the main server has no demo to enter', async () => {
  await using main = await startTestServer();
  const owner = await main.owner();
  await expect(owner.api.demo.enter.mutate({ role: 'mentor' })).rejects.toThrow('not-found');
  await expect(owner.api.demo.get.query()).rejects.toThrow('not-found');
  await expect(owner.api.demo.sitIn.mutate({ id: 'a'.repeat(32) })).rejects.toThrow('not-found');
  await expect(owner.api.demo.playToReveal.mutate()).rejects.toThrow('not-found');
  expect((await owner.api.session.me.query()).demo).toBe(false);
});

it('DE1: every visitor has a fresh copy that no other sees', async () => {
  await using demo = await startDemoServer();
  const one = await visit(demo, 'breeder');
  const other = await visit(demo, 'breeder');
  const { openId } = await one.api.demo.get.query();
  expect(copiesIn(demo)).toHaveLength(2);
  const untouched = await other.api.evaluation.get.query({ id: openId });
  const { id: litterId } = await one.api.litter.save.mutate({
    id: null,
    litter: { name: 'Mine alone', breed: '', dam: '', sire: '', whelpedOn: '2026-09-01' },
  });
  await one.api.evaluation.withdrawPuppy.mutate({
    id: openId,
    puppyId: untouched.puppies[0]?.id ?? '',
    reason: 'tried out',
  });
  expect((await one.api.evaluation.get.query({ id: openId })).puppies[0]?.withdrawn).toBe(true);
  expect(await other.api.evaluation.get.query({ id: openId })).toEqual(untouched);
  await expect(other.api.litter.get.query({ id: litterId })).rejects.toThrow('not-found');
});

it('DE1: entering anew replaces the visitor’s own copy', async () => {
  await using demo = await startDemoServer();
  const visitor = await visit(demo, 'breeder');
  const [first] = copiesIn(demo);
  const before = visitor.cookie();
  await visitor.api.demo.enter.mutate({ role: 'mentor' });
  expect(copiesIn(demo)).toHaveLength(1);
  expect(copiesIn(demo)[0]?.name).not.toBe(first?.name);
  expect((await visitor.api.session.me.query()).seat?.label).toBe('mentor');
  expect(
    (await callProcedure({ url: demo.url, cookie: () => before }, { path: 'demo.get', kind: 'query' }, undefined))
      .status,
  ).toBe(401);
});

it('DE1: a copy is gone after 24 hours, and other copies stay', async () => {
  await using demo = await startDemoServer();
  const early = await visit(demo, 'breeder');
  demo.pass(day / 2);
  const late = await visit(demo, 'mentor');
  demo.pass(day / 2 - 1);
  await demo.demo.sweep();
  expect((await early.api.session.me.query()).owner).toBe(true);
  demo.pass(1);
  // Before the sweep as well: whose time is up finds the lobby.
  expect(await early.api.session.me.query()).toMatchObject({ owner: false, seat: null });
  expect(copiesIn(demo)).toHaveLength(2);
  await demo.demo.sweep();
  expect(copiesIn(demo)).toHaveLength(1);
  expect((await late.api.session.me.query()).seat?.label).toBe('mentor');
});

it('DE1: a restart keeps visitors, and sweeps out what is over or half made', async () => {
  const first = await startDemoServer();
  const { folder } = first;
  const early = await visit(first, 'breeder');
  first.pass(day / 2);
  const late = await visit(first, 'photographer');
  const { openId } = await late.api.demo.get.query();
  const cookies = [early.cookie(), late.cookie()];
  await first.stop();
  mkdirSync(join(folder, 'half-made'));
  writeFileSync(join(folder, 'half-made', 'evenstack.db'), 'not a data file');
  await using second = await startDemoServer({ folder, now: Date.UTC(2026, 8, 13, 9, 0, 0) });
  expect(copiesIn(second)).toHaveLength(1);
  const asks = (cookie: string) =>
    callProcedure({ url: second.url, cookie: () => cookie }, { path: 'demo.get', kind: 'query' }, undefined);
  expect((await asks(cookies[0] ?? '')).status).toBe(401);
  expect((await asks(cookies[1] ?? '')).body).toContain(openId);
});

it('DE1: when the house is full the next visitor is told that it is busy', async () => {
  await using demo = await startDemoServer({ mostVisitors: 2 });
  const visitor = await visit(demo, 'breeder');
  for (const one of [visitor, await visit(demo, 'mentor')]) await one.api.demo.get.query();
  await expect(visit(demo, 'mentor')).rejects.toThrow('busy');
  expect(copiesIn(demo)).toHaveLength(2);
  // Starting over takes no place more.
  await visitor.api.demo.enter.mutate({ role: 'co-owner' });
  demo.pass(day);
  await demo.demo.sweep();
  expect(copiesIn(demo)).toEqual([]);
});

/** A visitor whom the trusted proxy says to come from there. */
async function visitFrom(demo: TestDemo, address: string): Promise<{ readonly status: number; cookie(): string }> {
  const headers = { origin: demo.url, 'content-type': 'application/json', 'x-forwarded-for': address };
  const answer = await fetch(`${demo.url}/api/trpc/demo.enter`, {
    method: 'POST',
    headers,
    body: JSON.stringify({ role: 'mentor' }),
  });
  const cookie = answer.headers.getSetCookie()[0]?.split(';')[0] ?? '';
  return { status: answer.status, cookie: () => cookie };
}

it('DE1: one address cannot take all copies, nor keep a visitor out with copies that nobody uses', async () => {
  await using demo = await startDemoServer({ mostVisitors: 4, mostOfOneAddress: 3, trustedProxy: '127.0.0.1' });
  const has = async (visitor: { cookie(): string }) =>
    (await callProcedure({ url: demo.url, cookie: visitor.cookie }, { path: 'demo.get', kind: 'query' }, undefined))
      .status === 200;
  const visitor = await visitFrom(demo, '198.51.100.1');
  expect(await has(visitor)).toBe(true);
  // Of one network of IPv6, each copy untouched.
  const taken = [];
  for (let n = 0; n < 8; n += 1) {
    demo.pass(1000);
    taken.push(await visitFrom(demo, `2001:db8:1:1::${n}`));
  }
  expect(taken.map(({ status }) => status)).toEqual(taken.map(() => 200));
  expect(copiesIn(demo)).toHaveLength(4);
  const next = await visitFrom(demo, '198.51.100.2');
  expect([await has(visitor), await has(next)]).toEqual([true, true]);
  const held = [];
  for (const one of taken) held.push(await has(one));
  expect(held).toEqual([false, false, false, false, false, false, true, true]);
  const third = await visitFrom(demo, '2001:db8:1:1::ff');
  expect([third.status, await has(third)]).toEqual([503, false]);
});

it('DE1, SC2: a copy asked for again because the answer was lost is the copy that was made', async () => {
  await using demo = await startDemoServer();
  const headers = { origin: demo.url, 'content-type': 'application/json', [callHeader]: 'c'.repeat(32) };
  const cookies = [];
  for (let n = 0; n < 2; n += 1)
    cookies.push(
      (
        await fetch(`${demo.url}/api/trpc/demo.enter`, {
          method: 'POST',
          headers,
          body: JSON.stringify({ role: 'mentor' }),
        })
      ).headers.getSetCookie()[0],
    );
  expect(cookies[0]).toBe(cookies[1]);
  expect(copiesIn(demo)).toHaveLength(1);
});

it('DE1: an address with its share in use is told that it is too many, while others still come in', async () => {
  await using demo = await startDemoServer({ mostVisitors: 4, mostOfOneAddress: 2, trustedProxy: '127.0.0.1' });
  for (let n = 0; n < 2; n += 1)
    await callProcedure(
      { url: demo.url, cookie: (await visitFrom(demo, '198.51.100.1')).cookie },
      { path: 'demo.get', kind: 'query' },
      undefined,
    );
  expect((await visitFrom(demo, '198.51.100.1')).status).toBe(429);
  expect((await visitFrom(demo, '198.51.100.2')).status).toBe(200);
});

it.each(roles)(
  'DE1: the %s sits as such, and every other seat of the open evaluation is marked as scripted',
  async (role) => {
    await using demo = await startDemoServer();
    const visitor = await visit(demo, role);
    const { openId, sealedId, role: mine } = await visitor.api.demo.get.query();
    expect(mine).toBe(role);
    const open = await visitor.api.evaluation.get.query({ id: openId });
    expect(open.puppies).toHaveLength(9);
    expect(open).toMatchObject({ phase: 'scoring', breed: 'Leonberger', ageDays: 56, heldOn: '2026-09-12' });
    expect(open.viewer.owner).toBe(role === 'breeder');
    expect(open.seats.map((seat) => seat.label)).toEqual(
      roles.map((one) => (one === role ? one : `${one} (scripted)`)),
    );
    expect(open.seats.every((seat) => seat.state === 'joined')).toBe(true);
    if (role !== 'breeder') await expect(visitor.api.board.get.query({ id: sealedId })).rejects.toThrow('not-found');
    await visitor.api.demo.sitIn.mutate({ id: sealedId });
    const board = await visitor.api.board.get.query({ id: sealedId });
    expect(board.criteria).toHaveLength(22);
    await visitor.api.demo.sitIn.mutate({ id: openId });
    expect((await visitor.api.card.mine.query({ id: openId })).answers).toEqual([]);
    await expect(visitor.api.demo.sitIn.mutate({ id: builtInSheetIds.full })).rejects.toThrow('not-found');
  },
);

it('DE1: a copy is readable by its server only', async () => {
  await using demo = await startDemoServer();
  holdTime('a copy made', await timed(() => visit(demo, 'breeder')), 1500);
  const [copy] = copiesIn(demo);
  const place = join(demo.folder, copy?.name ?? '');
  expect(existsSync(join(place, 'evenstack.db'))).toBe(true);
  // Its pictures, too, and the folder they lie in.
  const files = readdirSync(place, { recursive: true, encoding: 'utf8' });
  expect(files.length).toBeGreaterThan(36);
  for (const name of files) {
    const found = statSync(join(place, name));
    expect([name, (found.mode & 0o777).toString(8)]).toEqual([name, found.isDirectory() ? '700' : '600']);
  }
});
