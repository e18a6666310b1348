import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { listenLive } from '#tests/support/listenLive';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const code = (expected: string) => ({ data: { code: expected } });

async function scoring(server: TestServer) {
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const view = await owner.api.evaluation.get.query({ id });
  const seatId = view.seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  return { ...quillmarsh, mentor, seatId };
}

/** A browser that has typed a code and waits. */
async function asking(
  server: TestServer,
  spoken: string,
): Promise<{ readonly tablet: TestClient; readonly digits: string }> {
  const tablet = server.stranger();
  expect(await tablet.api.session.joinByCode.mutate({ code: spoken })).toEqual({ waiting: true });
  const { asking: request } = await tablet.api.session.me.query();
  return { tablet, digits: request?.digits ?? '' };
}

async function requestOf(first: TestClient): Promise<string> {
  return (await first.api.session.devices.query()).asking[0]?.id ?? '';
}

const noteOf = (subject: string, text: string, counter: number) => ({
  id: systemRandom.id(),
  subject,
  counter,
  madeAt: 1,
  body: { kind: 'note', criterion: null, text } as const,
});

it('BL9: a device that waits is a stranger: it reads and writes nothing', async () => {
  await using server = await startTestServer();
  const { id, mentor } = await scoring(server);
  const { tablet } = await asking(server, (await mentor.api.session.furtherCode.mutate()).code);
  await expect(tablet.api.evaluation.get.query({ id })).rejects.toMatchObject(code('not-signed-in'));
  await expect(tablet.api.card.mine.query({ id })).rejects.toMatchObject(code('not-signed-in'));
  await expect(listenLive(tablet)).rejects.toThrow();
});

it('BL9: the owner can make a code for a seat that is held, but let nobody in with it; nor can another seat, nor the device itself', async () => {
  await using server = await startTestServer();
  const { id, owner, seatId, mentor, seats } = await scoring(server);
  const spoken = await owner.api.setup.spokenCode.mutate({ id, seatId });
  expect(spoken.further).toBe(true);
  const { tablet } = await asking(server, spoken.code);
  const requestId = await requestOf(mentor);
  expect((await owner.api.session.devices.query()).asking).toEqual([]);
  await expect(owner.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-found'),
  );
  await expect(seats['co-owner']?.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-found'),
  );
  await expect(tablet.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-signed-in'),
  );
  expect((await tablet.api.session.me.query()).asking?.state).toBe('waiting');
});

it('BL9: refused or late, a request lets nobody in', async () => {
  await using server = await startTestServer();
  const { mentor } = await scoring(server);
  const refused = await asking(server, (await mentor.api.session.furtherCode.mutate()).code);
  await mentor.api.session.answerDevice.mutate({ requestId: await requestOf(mentor), letIn: false });
  expect((await refused.tablet.api.session.me.query()).asking?.state).toBe('refused');
  const late = await asking(server, (await mentor.api.session.furtherCode.mutate()).code);
  const requestId = await requestOf(mentor);
  server.pass(600_000);
  await expect(mentor.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-found'),
  );
  const me = await late.tablet.api.session.me.query();
  expect([me.asking?.state, me.seat]).toEqual(['over', null]);
});

it('BL9: let in by the first, a further device shows the same digits, reads the seat’s card, writes to it, and the seat is not issued again', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor } = await scoring(server);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const subject = (await mentor.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  await mentor.api.card.submit.mutate({ id, entries: [noteOf(subject, 'quince', 1)] });
  const ear = await listenLive(mentor);
  const rung = new Promise<unknown>((heard) => ear.once('changed', heard));
  const { tablet, digits } = await asking(server, (await mentor.api.session.furtherCode.mutate()).code);
  expect(await rung).toMatchObject({ evaluation: id, audience: 'own' });
  const { asking: requests } = await mentor.api.session.devices.query();
  expect(requests.map((one) => one.digits)).toEqual([digits]);
  expect(digits).toMatch(/^\d{4}$/);
  await mentor.api.session.answerDevice.mutate({ requestId: requests[0]?.id ?? '', letIn: true });
  expect((await tablet.api.session.me.query()).seat?.label).toBe('mentor');
  expect(JSON.stringify(await tablet.api.card.mine.query({ id }))).toContain('quince');
  expect((await tablet.api.card.submit.mutate({ id, entries: [noteOf(subject, 'medlar', 2)] }))[0]?.status).toBe(
    'applied',
  );
  expect(JSON.stringify(await mentor.api.card.mine.query({ id }))).toContain('medlar');
  expect(
    (await owner.api.record.list.query({ id }))
      .filter(({ kind }) => kind === 'device-let-in')
      .map(({ actor }) => actor),
  ).toEqual(['mentor']);
  ear.close();
});

it('BL9: what a seat issued again may not read, its further device may not read either', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, seatId } = await scoring(server);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const subject = (await mentor.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  await mentor.api.card.submit.mutate({ id, entries: [noteOf(subject, 'quince', 1)] });
  const second = server.stranger();
  await second.api.session.join.mutate(await owner.api.setup.reissue.mutate({ id, seatId }));
  await second.api.card.submit.mutate({
    id,
    entries: [{ ...noteOf(subject, '', 1), body: { kind: 'fair', fair: false, why: 'medlar' } }],
  });
  const { tablet } = await asking(server, (await second.api.session.furtherCode.mutate()).code);
  await second.api.session.answerDevice.mutate({ requestId: await requestOf(second), letIn: true });
  const card = JSON.stringify(await tablet.api.card.mine.query({ id }));
  expect(card).toContain('medlar');
  expect(card + JSON.stringify(await tablet.api.person.mine.query({ id }))).not.toContain('quince');
});

it('BL9: the owner’s own second device is let in from her first, and by nobody else', async () => {
  await using server = await startTestServer();
  const { owner, mentor } = await scoring(server);
  const { tablet } = await asking(server, (await owner.api.session.furtherCode.mutate()).code);
  const requestId = await requestOf(owner);
  await expect(mentor.api.session.answerDevice.mutate({ requestId, letIn: true })).rejects.toMatchObject(
    code('not-found'),
  );
  await owner.api.session.answerDevice.mutate({ requestId, letIn: true });
  expect((await tablet.api.session.me.query()).owner).toBe(true);
});
