import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

/** The store's own errors name the statement and everything that was to be written by it. */
it('BL1: an error of the store reaches the log without what was to be stored: no score, no word, no secret', async () => {
  await using server = await startTestServer();
  const { id, owner, links, seats } = await seedQuillmarsh(await server.owner(), { join: false });
  const mentor = seats['mentor'];
  const token = new URL(links['mentor'] ?? '').hash.slice(1);
  await mentor?.api.session.join.mutate({ token });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const subject = (await owner.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  const { $client } = server.runtime.db;
  $client.exec("CREATE TRIGGER broken BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'broken'); END");
  $client.exec("CREATE TRIGGER shut BEFORE INSERT ON device BEGIN SELECT RAISE(ABORT, 'shut'); END");
  const entry = {
    id: systemRandom.id(),
    subject,
    counter: 1,
    madeAt: 1,
    body: { kind: 'note', criterion: null, text: 'quince' },
  };
  const submitted = await callProcedure(
    mentor ?? owner,
    { path: 'card.submit', kind: 'mutation' },
    { id, entries: [entry] },
  );
  const joined = await callProcedure(
    server.stranger(),
    { path: 'session.join', kind: 'mutation' },
    { token: new URL(links['photographer'] ?? '').hash.slice(1) },
  );
  expect([submitted.status, joined.status]).toEqual([500, 500]);
  const log = server.logged.join('\n');
  expect(log).toMatch(/card\.submit: .*broken/s);
  expect(log).toMatch(/session\.join: .*shut/s);
  const { tokenHash } = $client
    .prepare<[], { tokenHash: string }>('SELECT token_hash AS tokenHash FROM device')
    .get() ?? { tokenHash: 'none' };
  expect(log).not.toMatch(new RegExp(`quince|params|${tokenHash}|[0-9a-f]{64}`));
});
