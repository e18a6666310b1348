import { TRPCClientError } from '@trpc/client';
import { expect, it } from 'vitest';
import { dataOf } from '#tests/support/dataOf';
import { holdTime } from '#tests/support/latency';
import { listenLive, untilCut } from '#tests/support/listenLive';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const passphrase = 'heron under the low bridge';

it('BL9: without a passphrase nobody signs in, and one too short is not taken', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  await expect(server.stranger().api.session.signIn.mutate({ passphrase: '' })).rejects.toMatchObject(
    code('bad-input'),
  );
  await expect(server.stranger().api.session.signIn.mutate({ passphrase })).rejects.toMatchObject(code('wrong-secret'));
  await expect(
    owner.api.owner.setPassphrase.mutate({ current: '', passphrase: 'fourteen signs', endOthers: false }),
  ).rejects.toMatchObject(code('bad-input'));
  await expect(
    server.stranger().api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false }),
  ).rejects.toMatchObject(code('not-signed-in'));
  expect((await owner.api.owner.get.query()).passphraseSetAt).toBeNull();
});

it('BL9: the owner signs in on another device by passphrase, or by each of eight recovery codes once; none of them is kept as it is', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const { recoveryCodes } = await owner.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
  // 24 signs of five bits are 120 bits.
  expect(recoveryCodes.map((one) => /^[0-9A-HJKMNP-TV-Z]{24}$/.test(one))).toEqual(
    [1, 2, 3, 4, 5, 6, 7, 8].map(() => true),
  );
  expect(new Set(recoveryCodes).size).toBe(8);
  const data = dataOf(server.runtime.db);
  for (const secret of [passphrase, ...recoveryCodes]) expect(data).not.toContain(secret);
  await expect(server.stranger().api.session.signIn.mutate({ passphrase: `${passphrase}s` })).rejects.toMatchObject(
    code('wrong-secret'),
  );
  const desk = server.stranger();
  await desk.api.session.signIn.mutate({ passphrase });
  expect((await desk.api.session.me.query()).owner).toBe(true);
  const [first = ''] = recoveryCodes;
  const typed = first.toLowerCase().replace(/(.{4})(?=.)/g, '$1-');
  await server.stranger().api.session.signIn.mutate({ passphrase: typed });
  await expect(server.stranger().api.session.signIn.mutate({ passphrase: typed })).rejects.toMatchObject(
    code('wrong-secret'),
  );
  expect((await owner.api.owner.get.query()).recoveryCodes).toBe(7);
  expect(server.logged).toEqual([]);
});

it('BL9: a passphrase is changed by who knows it, or has just come by the terminal; then the old one and its codes are dead, and other sessions if asked', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const { recoveryCodes } = await owner.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
  const desk = server.stranger();
  await desk.api.session.signIn.mutate({ passphrase });
  const change = { current: 'a guess at the passphrase', passphrase: 'otters in the millrace', endOthers: true };
  await expect(desk.api.owner.setPassphrase.mutate(change)).rejects.toMatchObject(code('wrong-secret'));
  server.pass(600_000);
  await expect(owner.api.owner.setPassphrase.mutate(change)).rejects.toMatchObject(code('wrong-secret'));
  const ear = await listenLive(owner);
  await desk.api.owner.setPassphrase.mutate({ ...change, current: passphrase });
  holdTime('a socket cut', await untilCut(ear), 1000);
  expect([(await owner.api.session.me.query()).owner, (await desk.api.session.me.query()).owner]).toEqual([
    false,
    true,
  ]);
  for (const secret of [passphrase, recoveryCodes[0] ?? ''])
    await expect(server.stranger().api.session.signIn.mutate({ passphrase: secret })).rejects.toMatchObject(
      code('wrong-secret'),
    );
  const fromTerminal = await server.owner();
  await fromTerminal.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
});

it('BL9: wrong passphrases are stopped like wrong codes, a recovery code works all the same, and the server’s loop is not held', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const { recoveryCodes } = await owner.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
  // A good part of a second's work: on the server's own loop it would leave room for the question before and the one behind it.
  let worked = true;
  const signIn = server
    .stranger()
    .api.session.signIn.mutate({ passphrase })
    .finally(() => {
      worked = false;
    });
  let answered = 0;
  for (; worked; answered += 1) await owner.api.session.me.query();
  await signIn;
  expect(answered).toBeGreaterThan(4);
  const stranger = server.stranger();
  const codes = await Promise.all(
    Array.from({ length: 30 }, (_, n) =>
      stranger.api.session.signIn.mutate({ passphrase: `guess ${n} of many guesses` }).then(
        () => 'in',
        (error: unknown) => (error instanceof TRPCClientError ? error.message : 'unknown'),
      ),
    ),
  );
  expect(codes.filter((one) => one === 'wrong-secret').length).toBeLessThanOrEqual(5);
  expect(new Set(codes)).toEqual(new Set(['wrong-secret', 'busy', 'too-many']));
  await stranger.api.session.signIn.mutate({ passphrase: recoveryCodes[0] ?? '' });
});
