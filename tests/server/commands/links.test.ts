import { expect, it } from 'vitest';
import { makeOwnerLink } from '#server/commands/owner';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const tokenOf = (link: string | undefined) => new URL(link ?? '').hash.slice(1);

it('BL9: a seat’s link dies at first use', async () => {
  await using server = await startTestServer();
  const { links } = await seedQuillmarsh(await server.owner());
  await expect(server.stranger().api.session.join.mutate({ token: tokenOf(links['mentor']) })).rejects.toMatchObject(
    code('link-dead'),
  );
});

it('BL9: a fresh link replaces an unused one, and a joined seat gets none', async () => {
  await using server = await startTestServer();
  const { id, owner, links } = await seedQuillmarsh(await server.owner(), { join: false });
  const seats = (await owner.api.evaluation.get.query({ id })).seats;
  const mentor = seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const { token } = await owner.api.setup.invite.mutate({ id, seatId: mentor });
  await expect(server.stranger().api.session.join.mutate({ token: tokenOf(links['mentor']) })).rejects.toMatchObject(
    code('link-dead'),
  );
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
  const response = await fetch(
    `${server.url}/api/trpc/evaluation.get?input=${encodeURIComponent(JSON.stringify({ id }))}`,
    { headers: { cookie: kept } },
  );
  expect(response.status).toBe(401);
});

it('BL9: a reissued seat’s new device writes, reads nothing of what was scored before, and the result says so', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  await owner.api.evaluation.openRound.mutate({ id });
  const view = await owner.api.evaluation.get.query({ id });
  const seatId = view.seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const subject = view.round?.showings[0]?.id ?? '';
  const note = (text: string, counter: number) => ({
    id: systemRandom.id(),
    subject,
    counter,
    madeAt: 1,
    body: { kind: 'note', criterion: null, text } as const,
  });
  await mentor?.api.card.submit.mutate({ id, entries: [note('first words', 1), note('quince', 7)] });
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId });
  await expect(mentor?.api.card.mine.query({ id })).rejects.toMatchObject(code('not-signed-in'));
  const second = server.stranger();
  await second.api.session.join.mutate({ token });
  expect((await second.api.card.mine.query({ id })).answers).toEqual([]);
  expect(second.received.join('')).not.toContain('quince');
  const [outcome] = await second.api.card.submit.mutate({ id, entries: [note('new words', 1)] });
  expect(outcome?.status).toBe('applied');
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const board = await owner.api.board.get.query({ id });
  expect(board.notes.map((one) => one.text)).toEqual(['new words']);
  expect(board.blindTo.join(' ')).toContain('Reissued to another device: mentor');
});

it('BL9: leaving a seat does not open it to whoever asks for a fresh link', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  await seats['mentor']?.api.session.leave.mutate();
  await expect(owner.api.setup.invite.mutate({ id, seatId })).rejects.toMatchObject(code('in-use'));
  await expect(owner.api.setup.removeSeat.mutate({ id, seatId })).rejects.toMatchObject(code('in-use'));
});
