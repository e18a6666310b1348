import { expect, it } from 'vitest';
import { open } from '#db/open';
import { findDevice, revokeDevice } from '#db/queries/devices';
import { hashToken } from '#server/random';
import { change } from '#server/write/writeEvaluation';
import { callBatch } from '#tests/support/callBatch';
import { dataOf } from '#tests/support/dataOf';
import { listProcedures } from '#tests/support/listProcedures';
import { askerOf, dayRuntime, makeDay } from '#tests/support/makeDay';
import { soundInputs } from '#tests/support/soundInputs';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

it('BL9: what a device asks in one breath with its own leaving, or after its session has ended, changes nothing', async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'open');
  const mentor = quillmarsh.seats['mentor'] ?? server.stranger();
  const inputs = await soundInputs(quillmarsh, { client: mentor, label: 'mentor' });
  const { db } = server.runtime;
  const held = () => db.$client.prepare('SELECT count(*) FROM entry').pluck().get();
  const before = held();
  const calls = ['session.leave', 'card.submit', 'card.move', 'card.lock'].flatMap((path) =>
    listProcedures()
      .filter((one) => one.path === path)
      .map((procedure) => ({ procedure, input: inputs[path] })),
  );
  expect((await callBatch(mentor, 'mutation', calls)).codes).toEqual([
    null,
    'not-signed-in',
    'not-signed-in',
    'not-signed-in',
  ]);
  expect(held()).toBe(before);
  const view = await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id });
  expect(view.seats.find((seat) => seat.label === 'mentor')?.state).not.toBe('locked');
});

it('BL9: who acts is decided when it is written: seat, rights and session are those of that moment', () => {
  const runtime = dayRuntime(open(':memory:'));
  const day = makeDay(runtime, { seats: 1, devicesPerSeat: 1 });
  const [owner, seat] = day.devices.map((device) => ({ ...device, ctx: askerOf(runtime, day, device) }));
  if (!owner || !seat) throw new Error('nobody sits here');
  const id = day.facts.id;
  const who = (ctx: typeof seat.ctx) => change({ ctx, id }, ({ viewer, seat: own }) => ({ ...viewer, own: own?.id }));
  expect(who(owner.ctx)).toMatchObject({ owner: true, leads: true, seatId: owner.seatId, own: owner.seatId });
  expect(who(seat.ctx)).toMatchObject({
    owner: false,
    leads: false,
    organises: false,
    seatId: seat.seatId,
    own: seat.seatId,
  });
  runtime.db.$client.prepare('UPDATE seat SET leads = 1 WHERE id = ?').run(seat.seatId);
  expect(who(seat.ctx)).toMatchObject({ leads: true });
  const stranger = { runtime, device: { ...seat.ctx.device, seatId: 'f'.repeat(32) } };
  expect(() => who(stranger)).toThrow(expect.objectContaining({ code: 'not-found' }) as Error);
  const device = findDevice(runtime.db, hashToken(seat.secret));
  revokeDevice(runtime.db, device?.id ?? '', 1);
  const before = dataOf(runtime.db);
  expect(() => change({ ctx: seat.ctx, id }, ({ note }) => note('a test', 'set-up-saved'))).toThrow(
    expect.objectContaining({ code: 'not-signed-in' }) as Error,
  );
  expect(dataOf(runtime.db)).toBe(before);
  runtime.db.$client.close();
});
