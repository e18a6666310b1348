import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { listProcedures } from '#tests/support/listProcedures';
import { sampleInput, type KnownFields } from '#tests/support/sampleInput';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { soundInputs } from '#tests/support/soundInputs';
import { startTestServer } from '#tests/support/startTestServer';

const forStrangers = new Set([
  'session.me',
  'session.join',
  'session.joinByCode',
  'session.signIn',
  'home.read',
  'demo.enter',
]);
const known: KnownFields = {
  heldOn: '2026-09-12',
  whelpedOn: '2026-07-18',
  weighedOn: '2026-09-12',
  grams: 5000,
  token: 'x'.repeat(40),
  chipDigits: '',
  callLink: '',
};
const anyId = () => systemRandom.id();
const withIds = (id: string): KnownFields => {
  const names = [
    'id',
    'litterId',
    'sheetId',
    'seatId',
    'slotId',
    'puppyId',
    'firstPuppyId',
    'secondPuppyId',
    'showingId',
    'lookId',
    'noteId',
    'subject',
    'from',
    'to',
    'moveId',
  ];
  return { ...known, ...Object.fromEntries(names.map((name) => [name, id])) };
};

it('BL2: a stranger is refused by every procedure but those that make a session', async () => {
  await using server = await startTestServer();
  const stranger = server.stranger();
  const before = dataOf(server.runtime.db);
  for (const procedure of listProcedures().filter((one) => !forStrangers.has(one.path))) {
    const answered = await callProcedure(
      stranger,
      procedure,
      procedure.input ? sampleInput(procedure.input, withIds(anyId())) : undefined,
    );
    expect([procedure.path, answered.code]).toEqual([procedure.path, 'not-signed-in']);
  }
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL2: a seat of another evaluation is told that there is nothing here', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const mine = await seedQuillmarsh(owner);
  const theirs = await seedQuillmarsh(owner);
  const guest = theirs.seats['co-owner'];
  if (!guest) throw new Error('no guest');
  const sound = await soundInputs(mine);
  const before = dataOf(server.runtime.db);
  const faults: string[] = [];
  for (const procedure of listProcedures()) {
    if (/^(session|demo|home\.read)/.test(procedure.path)) continue;
    const answered = await callProcedure(
      guest,
      procedure,
      sound[procedure.path] ?? (procedure.input ? { id: mine.id } : undefined),
    );
    // What is the owner's alone is refused as such; everything else is not there for this seat.
    if (answered.code !== 'not-found' && answered.code !== 'not-allowed')
      faults.push(`${procedure.path}: ${answered.status} ${answered.code}`);
  }
  expect(faults).toEqual([]);
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL2: a field nobody asked for is refused, by every procedure', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner());
  const before = dataOf(server.runtime.db);
  for (const procedure of listProcedures()) {
    const input = procedure.input ? sampleInput(procedure.input, withIds(id)) : undefined;
    const answered = await callProcedure(
      owner,
      procedure,
      typeof input === 'object' ? { ...input, extra: 1 } : { extra: 1 },
    );
    expect([procedure.path, answered.code]).toEqual([procedure.path, 'bad-input']);
  }
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL2: an unknown id is a coded refusal, by every procedure that takes one', async () => {
  await using server = await startTestServer();
  const { owner } = await seedQuillmarsh(await server.owner());
  const before = dataOf(server.runtime.db);
  const faults: string[] = [];
  for (const procedure of listProcedures().filter((one) => one.input && !one.path.startsWith('demo.'))) {
    const input = procedure.input ? sampleInput(procedure.input, withIds(anyId())) : undefined;
    if (typeof input !== 'object' || input === null || !Object.keys(input).some((key) => /id$/i.test(key))) continue;
    const answered = await callProcedure(owner, procedure, input);
    const refused =
      answered.status >= 400 && answered.status < 500 && answered.code !== null && answered.code !== 'unknown';
    if (!refused) faults.push(`${procedure.path}: ${answered.status} ${answered.code}`);
  }
  expect(faults).toEqual([]);
  expect(dataOf(server.runtime.db)).toBe(before);
});

it.each([
  [
    'litter.save',
    { id: null, litter: { name: 'x'.repeat(81), breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' } },
  ],
  ['litter.save', { id: null, litter: { name: '', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' } }],
  ['litter.save', { id: null, litter: { name: 'Late', breed: '', dam: '', sire: '', whelpedOn: '2026-02-30' } }],
  ['litter.save', { id: null, litter: { name: 'a\u0007b', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' } }],
  ['session.join', { token: 'short' }],
  ['session.join', { token: 7 }],
])('SC2: %s refuses what is too long, empty or impossible, and changes nothing', async (path, input) => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const before = dataOf(server.runtime.db);
  const answered = await callProcedure(owner, { path, kind: 'mutation' }, input);
  expect([answered.status, answered.code]).toEqual([400, 'bad-input']);
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL2: a body that is no JSON, and one that is too large, are refused in words of our own', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const send = (body: string) =>
    fetch(`${server.url}/api/trpc/litter.save`, {
      method: 'POST',
      body,
      headers: { origin: server.url, cookie: owner.cookie(), 'content-type': 'application/json' },
    });
  const broken = await send('{not json');
  expect([broken.status, await broken.text()]).toEqual([400, expect.stringContaining('"message":"bad-input"')]);
  const large = await send(JSON.stringify({ text: 'x'.repeat(600_000) }));
  expect(large.status).toBe(413);
});

it('BL3: a change from another origin, or from none, is refused before it is read', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  for (const origin of ['http://elsewhere.example', undefined]) {
    const response = await fetch(`${server.url}/api/trpc/session.leave`, {
      method: 'POST',
      headers: { cookie: owner.cookie(), ...(origin ? { origin } : {}) },
    });
    expect([response.status, await response.text()]).toEqual([403, expect.stringContaining('foreign-page')]);
  }
  expect((await owner.api.session.me.query()).owner).toBe(true);
});

it('BL1: an error nobody foresaw reaches the client as a fixed word with a request id, its cause the log only', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  server.runtime.db.$client.exec('DROP TABLE weight');
  const { id } = await owner.api.litter.save.mutate({
    id: null,
    litter: { name: 'A', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' },
  });
  const answered = await callProcedure(owner, { path: 'litter.get', kind: 'query' }, { id });
  expect([answered.status, answered.code]).toEqual([500, 'unknown']);
  expect(answered.body).not.toMatch(/weight|sqlite|SELECT/i);
  expect(server.logged.join('\n')).toMatch(/^[0-9a-f]{32} litter\.get: .*weight/s);
});
