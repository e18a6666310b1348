import { expect, it } from 'vitest';
import { z } from 'zod';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const minute = 60_000;

async function seatOf(server: TestServer, join: boolean) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { join });
  const seatId =
    (await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id })).seats.find(
      (seat) => seat.label === 'mentor',
    )?.id ?? '';
  return { ...quillmarsh, seatId };
}

it('BL9: a spoken code works once, for ten minutes, and dies with the seat’s link', async () => {
  await using server = await startTestServer();
  const { id, owner, seatId, links } = await seatOf(server, false);
  const late = await owner.api.setup.spokenCode.mutate({ id, seatId });
  expect(late.expiresAt - server.runtime.clock.now()).toBe(10 * minute);
  server.pass(10 * minute);
  await expect(server.stranger().api.session.joinByCode.mutate({ code: late.code })).rejects.toMatchObject(
    code('wrong-secret'),
  );
  const replaced = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const spoken = await owner.api.setup.spokenCode.mutate({ id, seatId });
  await expect(server.stranger().api.session.joinByCode.mutate({ code: replaced.code })).rejects.toMatchObject(
    code('wrong-secret'),
  );
  const mentor = server.stranger();
  expect(
    await mentor.api.session.joinByCode.mutate({
      code: ` ${spoken.code.toLowerCase().slice(0, 4)}-${spoken.code.slice(4)}`,
    }),
  ).toEqual({ waiting: false });
  expect((await mentor.api.session.me.query()).seat?.label).toBe('mentor');
  await expect(server.stranger().api.session.joinByCode.mutate({ code: spoken.code })).rejects.toMatchObject(
    code('wrong-secret'),
  );
  const token = new URL(links['mentor'] ?? '').hash.slice(1);
  await expect(server.stranger().api.session.join.mutate({ token })).rejects.toMatchObject(code('link-dead'));
});

it('BL9: a code names its evaluation in two signs, has eight more of 40 random bits, and stands nowhere in the data file', async () => {
  await using server = await startTestServer({ random: systemRandom });
  const { id, owner, seatId } = await seatOf(server, false);
  const codes = [];
  for (let n = 0; n < 20; n += 1) codes.push((await owner.api.setup.spokenCode.mutate({ id, seatId })).code);
  expect(new Set(codes).size).toBe(20);
  expect(new Set(codes.map((spoken) => spoken.slice(0, 2))).size).toBe(1);
  expect(new Set(codes.map((spoken) => spoken.slice(2))).size).toBe(20);
  for (const spoken of codes) {
    expect(spoken).toMatch(/^[0-9A-HJKMNP-TV-Z]{10}$/);
    expect(dataOf(server.runtime.db)).not.toContain(spoken);
  }
});

it('BL9: a seat whose devices have gone gets no code before it is issued again; then it does', async () => {
  await using server = await startTestServer();
  const { id, owner, seatId, seats } = await seatOf(server, true);
  await seats['mentor']?.api.session.leave.mutate();
  await expect(owner.api.setup.spokenCode.mutate({ id, seatId })).rejects.toMatchObject(code('in-use'));
  await owner.api.setup.reissue.mutate({ id, seatId });
  const spoken = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const other = server.stranger();
  expect([spoken.further, await other.api.session.joinByCode.mutate({ code: spoken.code })]).toEqual([
    false,
    { waiting: false },
  ]);
});

it('BL9: in the owner’s browser a seat’s code is refused, stands in that evaluation’s record, and lives', async () => {
  await using server = await startTestServer();
  const { id, owner, seatId, links } = await seatOf(server, false);
  const spoken = await owner.api.setup.spokenCode.mutate({ id, seatId });
  await expect(owner.api.session.joinByCode.mutate({ code: spoken.code })).rejects.toMatchObject(code('in-use'));
  await expect(
    owner.api.session.join.mutate({ token: new URL(links['mentor'] ?? '').hash.slice(1) }),
  ).rejects.toMatchObject(code('in-use'));
  const mentor = server.stranger();
  await mentor.api.session.joinByCode.mutate({ code: spoken.code });
  const tried = (await mentor.api.record.list.query({ id })).filter((entry) => entry.kind === 'link-refused');
  expect(tried.map(({ actor, detail }) => [actor, detail])).toEqual(
    [1, 2].map(() => ['owner', 'in the owner’s browser: mentor']),
  );
});

/** Guesses sent in one batched call, from an address that the trusted proxy names; how each was answered. */
async function guesses(server: TestServer, address: string, typed: readonly string[]): Promise<readonly string[]> {
  const response = await fetch(`${server.url}/api/trpc/${typed.map(() => 'session.joinByCode').join(',')}?batch=1`, {
    method: 'POST',
    headers: { origin: server.url, 'content-type': 'application/json', 'x-forwarded-for': address },
    body: JSON.stringify(Object.fromEntries(typed.map((spoken, n) => [n, { code: spoken }]))),
  });
  const answers = z
    .array(z.object({ error: z.object({ message: z.string() }).optional() }))
    .parse(await response.json());
  return answers.map(({ error }) => error?.message ?? 'in');
}

const wrongCode = (n: number) => String(n).padStart(10, '0');

it('BL9: whoever guesses a thousand codes from forty addresses, at the very name too, keeps nobody waiting who was invited', async () => {
  await using server = await startTestServer({ trustedProxy: '127.0.0.1' });
  const { id, owner, seatId, links } = await seatOf(server, false);
  const spoken = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const name = spoken.code.slice(0, 2);
  const answers: string[] = [];
  for (let n = 0; n < 40; n += 1) {
    answers.push(
      ...(await guesses(
        server,
        `198.51.100.${n}`,
        Array.from({ length: 25 }, (_, at) => `${at % 2 === 0 ? name : '00'}${wrongCode(25 * n + at).slice(2)}`),
      )),
    );
  }
  expect(answers).toHaveLength(1000);
  expect(answers.filter((answer) => answer === 'wrong-secret')).toHaveLength(400);
  expect(new Set(answers)).toEqual(new Set(['wrong-secret', 'too-many']));
  expect(await guesses(server, '203.0.113.1', [`${name === '00' ? '11' : '00'}${spoken.code.slice(2)}`])).toEqual([
    'wrong-secret',
  ]);
  expect(await guesses(server, '203.0.113.1', [spoken.code])).toEqual(['in']);
  await server.stranger().api.session.join.mutate({ token: new URL(links['photographer'] ?? '').hash.slice(1) });
});

it('BL9: a name that exists and one that does not are answered alike', async () => {
  await using server = await startTestServer({ trustedProxy: '127.0.0.1' });
  const { id, owner, seatId } = await seatOf(server, false);
  const { code: spoken } = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const other = spoken.startsWith('00') ? '11' : '00';
  const tries = (prefix: string) => Array.from({ length: 7 }, (_, n) => `${prefix}${wrongCode(n).slice(2)}`);
  expect(await guesses(server, '192.0.2.8', tries(spoken.slice(0, 2)))).toEqual(
    await guesses(server, '192.0.2.9', tries(other)),
  );
});

it('BL9: one address has five tries a minute; two addresses of one /64 are one, a neighbouring /64 is another', async () => {
  await using server = await startTestServer({ trustedProxy: '127.0.0.1' });
  const tries = async (addresses: readonly string[]) => {
    const answers = [];
    for (const [n, address] of addresses.entries()) answers.push(...(await guesses(server, address, [wrongCode(n)])));
    return answers;
  };
  const wrong = Array.from({ length: 5 }, () => 'wrong-secret');
  const household = Array.from({ length: 6 }, (_, n) => `2001:db8:1:1::${n % 2 === 0 ? 'a' : 'b'}${n}`);
  expect(await tries(household)).toEqual([...wrong, 'too-many']);
  expect(await tries(['2001:db8:1:2::a'])).toEqual(['wrong-secret']);
  expect(await tries(Array.from({ length: 6 }, () => '192.0.2.1'))).toEqual([...wrong, 'too-many']);
});

it('BL9: a refusal for too many tries says how long to wait, with status 429', async () => {
  await using server = await startTestServer();
  const stranger = server.stranger();
  for (let n = 0; n < 5; n += 1)
    await stranger.api.session.joinByCode.mutate({ code: wrongCode(n) }).catch(() => undefined);
  const answered = await callProcedure(
    stranger,
    { path: 'session.joinByCode', kind: 'mutation' },
    { code: wrongCode(9) },
  );
  expect([answered.status, answered.body]).toEqual([429, expect.stringContaining('"details":{"seconds":12}')]);
});
