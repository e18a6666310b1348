import { expect, it } from 'vitest';
import { makeOwnerLink } from '#server/commands/makeOwnerLink';
import { dataOf } from '#tests/support/dataOf';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const tokenOf = (link: string | undefined) => new URL(link ?? '').hash.slice(1);

it('BL9: a seat’s link dies at first use', async () => {
  await using server = await startTestServer();
  const { links } = await seedQuillmarsh(await server.owner());
  await expect(server.stranger().api.session.join.mutate({ token: tokenOf(links['mentor']) })).rejects.toMatchObject(code('link-dead'));
});

it('BL9: a fresh link replaces an unused one, and a joined seat gets none', async () => {
  await using server = await startTestServer();
  const { id, owner, links } = await seedQuillmarsh(await server.owner(), { join: false });
  const seats = (await owner.api.evaluation.get.query({ id })).seats;
  const mentor = seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const { token } = await owner.api.setup.invite.mutate({ id, seatId: mentor });
  await expect(server.stranger().api.session.join.mutate({ token: tokenOf(links['mentor']) })).rejects.toMatchObject(code('link-dead'));
  await server.stranger().api.session.join.mutate({ token });
  await expect(owner.api.setup.invite.mutate({ id, seatId: mentor })).rejects.toMatchObject(code('in-use'));
});

it('BL9: the owner’s browser cannot take another seat by its link; the attempt is on the record and the link lives', async () => {
  await using server = await startTestServer();
  const { owner, links } = await seedQuillmarsh(await server.owner(), { join: false });
  const token = tokenOf(links['mentor']);
  await expect(owner.api.session.join.mutate({ token })).rejects.toMatchObject(code('in-use'));
  expect(dataOf(server.runtime.db)).toContain('link-refused');
  await server.stranger().api.session.join.mutate({ token });
});

it('BL9: the owner’s own seat has no link', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner());
  const own = (await owner.api.evaluation.get.query({ id })).viewer.seatId ?? '';
  await expect(owner.api.setup.invite.mutate({ id, seatId: own })).rejects.toMatchObject(code('in-use'));
});

it('BL9: an owner link from the terminal works once', async () => {
  await using server = await startTestServer();
  const token = makeOwnerLink(server.runtime);
  const client = server.stranger();
  await client.api.session.join.mutate({ token });
  expect((await client.api.session.me.query()).owner).toBe(true);
  await expect(server.stranger().api.session.join.mutate({ token })).rejects.toMatchObject(code('link-dead'));
});

it('BL9: no secret of a link or a session stands in the data file', async () => {
  await using server = await startTestServer();
  const { owner, links } = await seedQuillmarsh(await server.owner());
  const data = dataOf(server.runtime.db);
  for (const link of Object.values(links)) expect(data).not.toContain(tokenOf(link));
  expect(data).not.toContain(owner.cookie().split('=')[1]);
});

it('BL9: after leaving, a session is worth nothing', async () => {
  await using server = await startTestServer();
  const { id, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  const kept = mentor?.cookie() ?? '';
  await mentor?.api.session.leave.mutate();
  const response = await fetch(`${server.url}/api/trpc/evaluation.get?input=${encodeURIComponent(JSON.stringify({ id }))}`, { headers: { cookie: kept } });
  expect(response.status).toBe(401);
});
