import { expect, it } from 'vitest';
import { callProcedure } from '#tests/support/callProcedure';
import { listProcedures } from '#tests/support/listProcedures';
import { lockCard, promiseOf } from '#tests/support/lockCard';
import { soundInputs } from '#tests/support/soundInputs';
import { bringTo, type Stage } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';
import { withoutTrace } from '#tests/support/withoutTrace';

/** Changes that leave no line: what somebody scores or writes has its own history, the rest happens before anything is agreed or is of this device alone. */
const silent = new Set([
  'board.addNote',
  'board.askToSpeak',
  'card.importScores',
  'card.previewImport',
  'card.submit',
  'evaluation.moveTable',
  'litter.save',
  'litter.savePuppy',
  'litter.saveWeight',
  'photo.keep',
  'photo.measure',
  'photo.place',
  'photo.point',
  'photo.saveList',
  'photo.setFair',
  'photo.unpoint',
  'photo.confirmFigure',
  'photo.remove',
  'practice.lock',
  // The line comes when the device that types the code is let in.
  'session.furtherCode',
  'session.leave',
  'sheet.save',
]);

it.each<Stage>(['preparing', 'open', 'closed', 'revealed'])(
  'BL7: at stage %s every change the owner makes stands in the record, but for those that have a history of their own',
  async (stage) => {
    await using server = await startTestServer();
    const quillmarsh = await bringTo(server, stage);
    const { id, owner } = quillmarsh;
    // One that is out, where it may be taken out: there has to be something to bring back.
    const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[2]?.id ?? '';
    await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId, reason: 'asleep' }).catch(() => undefined);
    const inputs = {
      ...(await soundInputs(quillmarsh)),
      'evaluation.bringBackPuppy': { id, puppyId },
      'card.lock': { id, ...(await promiseOf(owner, id).catch(() => ({}))) },
    };
    const lines = () => server.runtime.db.$client.prepare('SELECT count(*) FROM record').pluck().get();
    const before = lines();
    const unsaid: string[] = [];
    let recorded = 0;
    for (const procedure of listProcedures().filter((one) => one.kind === 'mutation')) {
      await withoutTrace(server, async () => {
        const input =
          (inputs as Readonly<Record<string, unknown>>)[procedure.path] ?? (procedure.input ? { id } : undefined);
        const { status } = await callProcedure(owner, procedure, input);
        if (status !== 200) return;
        if (lines() !== before) recorded += 1;
        else if (!silent.has(procedure.path)) unsaid.push(procedure.path);
      });
    }
    expect(unsaid).toEqual([]);
    expect(recorded).toBeGreaterThan(2);
  },
);

it('BL7: the record of a day says who did what, and names no score', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  await owner.api.evaluation.reopenRound.mutate({ id });
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  const { seats: faces } = await owner.api.evaluation.get.query({ id });
  await owner.api.setup.reissue.mutate({ id, seatId: faces.find((seat) => seat.label === 'mentor')?.id ?? '' });
  const record = await seats['photographer']?.api.record.list.query({ id });
  const kinds = new Set(record?.map((line) => line.kind));
  expect(kinds).toEqual(
    new Set([
      ...kinds,
      'evaluation-created',
      'link-made',
      'seat-joined',
      'round-opened',
      'seat-locked',
      'round-closed',
      'committed',
      'round-reopened',
      'round-revealed',
      'seat-reissued',
    ]),
  );
  for (const { kind, detail } of record ?? []) {
    if (kind.startsWith('committed') || kind === 'round-revealed')
      expect(detail).toMatch(/^[0-9a-f]{64}( \[scores [0-9a-f]{64}\])?$/);
  }
});
