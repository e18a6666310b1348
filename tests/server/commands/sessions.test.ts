import { expect, it } from 'vitest';
import { standardRates } from '#server/limits';
import { holdTime, timed } from '#tests/support/latency';
import { listenLive, untilCut } from '#tests/support/listenLive';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const hour = 3_600_000;

it('BL9: a seat’s session ends after twelve hours unused, its card stays, and a further device cannot be let in by it', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  await mentor?.api.session.furtherCode.mutate();
  server.pass(12 * hour);
  await expect(mentor?.api.card.mine.query({ id })).rejects.toMatchObject(code('not-signed-in'));
  await expect(mentor?.api.session.devices.query()).rejects.toMatchObject(code('not-signed-in'));
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  await expect(owner.api.setup.invite.mutate({ id, seatId })).rejects.toMatchObject(code('in-use'));
  const back = server.stranger();
  await back.api.session.join.mutate(await owner.api.setup.reissue.mutate({ id, seatId }));
  expect((await back.api.session.me.query()).seat?.label).toBe('mentor');
});

it('BL9: a session in use goes on, but not beyond 36 hours, and then its socket goes at the next doorbell', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const ear = await listenLive(mentor);
  for (let n = 0; n < 5; n += 1) {
    server.pass(7 * hour);
    expect((await mentor.api.session.me.query()).seat?.label).toBe('mentor');
  }
  server.pass(hour);
  expect((await mentor.api.session.me.query()).seat).toBeNull();
  await owner.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { label: 'guest', kind: 'none', leads: false, picks: false, interest: '' },
  });
  holdTime('a socket cut', await untilCut(ear), 1000);
});

it('BL9: a session is marked as used once a minute at the most', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const seen = async () => (await owner.api.session.devices.query()).devices[0]?.seenAt ?? 0;
  const start = await seen();
  server.pass(59_000);
  expect(await seen()).toBe(start);
  server.pass(1_000);
  expect(await seen()).toBe(start + 60_000);
});

it.each([
  ['the owner ends the seat’s sessions', 'endSeat'],
  ['the owner issues the seat again', 'reissue'],
  ['the person leaves', 'leave'],
] as const)('BL9: when %s its session and its sockets are dead', async (_, how) => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor, photographer } = seats;
  if (!mentor || !photographer) throw new Error('no seats');
  const kept = mentor.cookie();
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const ears = [await listenLive(mentor), await listenLive(mentor)];
  const other = await listenLive(photographer);
  const took = await timed(async () => {
    if (how === 'leave') await mentor.api.session.leave.mutate();
    else await owner.api.setup[how].mutate({ id, seatId });
    await Promise.all(ears.map(untilCut));
  });
  const answer = await fetch(`${server.url}/api/trpc/card.mine?input=${encodeURIComponent(JSON.stringify({ id }))}`, {
    headers: { cookie: kept },
  });
  expect([answer.status, other.connected]).toEqual([401, true]);
  holdTime('an ended session’s sockets cut', took, 1000);
  other.close();
});

it('BL9: a device ends another of its own seat, and none of another seat', async () => {
  await using server = await startTestServer();
  const { owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const tablet = server.stranger();
  await tablet.api.session.joinByCode.mutate({ code: (await mentor.api.session.furtherCode.mutate()).code });
  await mentor.api.session.answerDevice.mutate({
    requestId: (await mentor.api.session.devices.query()).asking[0]?.id ?? '',
    letIn: true,
  });
  const deviceId = (await mentor.api.session.devices.query()).devices.find((one) => !one.here)?.id ?? '';
  await expect(owner.api.session.endDevice.mutate({ deviceId })).rejects.toMatchObject(code('not-found'));
  const ear = await listenLive(tablet);
  await mentor.api.session.endDevice.mutate({ deviceId });
  holdTime('a socket cut', await untilCut(ear), 1000);
  expect((await tablet.api.session.me.query()).seat).toBeNull();
});

it('BL9: a session holds five sockets; the sixth ends the oldest', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const sockets = [];
  for (let n = 0; n < 6; n += 1) sockets.push(await listenLive(owner));
  const [oldest] = sockets;
  if (!oldest) throw new Error('no socket');
  holdTime('the oldest socket cut', await untilCut(oldest), 1000);
  expect(sockets.slice(1).map((one) => one.connected)).toEqual([true, true, true, true, true]);
  sockets.forEach((one) => one.close());
});

it('BL9: a session that changes too much in a short time is told to wait', async () => {
  await using server = await startTestServer({ rates: standardRates });
  const owner = await server.owner();
  const litter = { name: 'Quillmarsh', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' };
  const save = () => owner.api.litter.save.mutate({ id: null, litter });
  await Promise.all(Array.from({ length: 100 }, save));
  await expect(save()).rejects.toMatchObject({ data: { code: 'too-many', httpStatus: 429, details: { seconds: 1 } } });
  expect((await owner.api.litter.list.query()).length).toBe(100);
  server.pass(1000);
  await save();
});
