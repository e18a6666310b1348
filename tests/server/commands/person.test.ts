import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { playToReveal } from '#tests/support/scoreCards';
import { verifyData } from '#server/reveal/verifyData';
import { usualPlan } from '#lib/contract/plan';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

/** The mentor has named herself and written a note before the reveal and one after. */
async function written(server: TestServer) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner, seats } = quillmarsh;
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  await owner.api.setup.saveSeat.mutate({
    id,
    seatId,
    seat: { label: 'Quincia Medlar', kind: 'live', leads: false, picks: false, interest: 'bred the quince dam' },
  });
  return { ...quillmarsh, mentor, seatId };
}

async function writeNotes(server: TestServer) {
  const quillmarsh = await written(server);
  await playToReveal(quillmarsh);
  const { id, mentor } = quillmarsh;
  const subject = (await mentor.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  await mentor.api.card.submit.mutate({
    id,
    entries: [
      {
        id: systemRandom.id(),
        subject,
        counter: 1,
        madeAt: 1,
        body: { kind: 'note', criterion: null, text: 'quince as a late note' },
      },
    ],
  });
  await mentor.api.board.addNote.mutate({
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: null,
    otherPuppyId: null,
    criterion: null,
    text: 'quince in the talk',
  });
  return quillmarsh;
}

it('BL1: a person’s data are her own: no other seat’s and no way to ask for them', async () => {
  await using server = await startTestServer();
  const { id, mentor, seats, seatId } = await writeNotes(server);
  const mine = await mentor.api.person.mine.query({ id });
  expect(mine.seat).toMatchObject({ id: seatId, label: 'Quincia Medlar', interest: 'bred the quince dam' });
  expect(mine.entries.length).toBeGreaterThan(10);
  expect(mine.notes.map(({ text }) => text)).toEqual(['quince in the talk']);
  expect(mine.record.map(({ kind }) => kind)).toContain('seat-locked');
  const theirs = JSON.stringify(await seats['photographer']?.api.person.mine.query({ id }));
  expect(theirs).not.toMatch(/quince/i);
});

it('BL1: while a round is open nothing is removed, and nobody removes another seat’s words but the owner', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, seats, seatId } = await written(server);
  await expect(seats['photographer']?.api.person.remove.mutate({ id, seatId })).rejects.toMatchObject(
    code('not-allowed'),
  );
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await expect(mentor.api.person.remove.mutate({ id, seatId })).rejects.toMatchObject(code('still-open'));
});

it('SC3: removing a person’s words leaves scores, places and the record’s chain as they were, none of the words, and no session', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, seatId } = await writeNotes(server);
  const board = await owner.api.board.get.query({ id });
  const before = await owner.api.record.list.query({ id });
  const scores = () =>
    JSON.stringify(
      server.runtime.db.$client
        .prepare('SELECT id, subject, field, counter, value, status FROM entry ORDER BY id')
        .all(),
    );
  const kept = scores();
  await mentor.api.person.remove.mutate({ id, seatId });
  expect((await mentor.api.session.me.query()).seat).toBeNull();
  expect(scores()).toBe(kept);
  const after = await owner.api.record.list.query({ id });
  expect(after.slice(0, before.length).map(({ seq, hash }) => [seq, hash])).toEqual(
    before.map(({ seq, hash }) => [seq, hash]),
  );
  expect(after.at(-1)).toMatchObject({ actor: 'removed 2', kind: 'words-removed' });
  const stands = await owner.api.board.get.query({ id });
  expect(stands.purposes).toEqual(board.purposes);
  expect(stands.criteria).toEqual(board.criteria);
  expect(dataOf(server.runtime.db)).not.toMatch(/quincia|medlar|quince/i);
  expect(server.runtime.db.$client.pragma('integrity_check', { simple: true })).toBe('ok');
  await expect(owner.api.person.remove.mutate({ id, seatId })).rejects.toMatchObject(code('in-use'));
});

it('SC3: outside a removal no word of an entry, a snapshot, a talk or a decision can be changed, and within one no score', async () => {
  await using server = await startTestServer();
  const { seatId } = await writeNotes(server);
  const { $client } = server.runtime.db;
  const run = (sql: string) => () => $client.exec(sql);
  const words = `UPDATE entry SET body = json_replace(body, '$.text', 'removed', '$.why', 'removed', '$.reason', 'removed') WHERE seat_id = '${seatId}'`;
  const statements = [
    words,
    "UPDATE discussion_note SET text = 'removed'",
    "UPDATE snapshot SET body = '{}'",
    "UPDATE decision SET reason = ''",
  ];
  $client.exec(
    "INSERT INTO decision SELECT 'd', 1, evaluation_id, id, 'nobody', NULL, 'owner', '', 0, NULL, 1 FROM slot LIMIT 1",
  );
  for (const statement of statements) expect(run(statement)).toThrow(/append-only/);
  $client.exec(`INSERT INTO removal (seat_id, at) VALUES ('${seatId}', 1)`);
  expect(run(`UPDATE entry SET value = value - 1 WHERE seat_id = '${seatId}' AND value > 1`)).toThrow(/append-only/);
  expect(run(`UPDATE entry SET body = json_replace(body, '$.value', -1) WHERE seat_id = '${seatId}'`)).toThrow(
    /append-only/,
  );
  expect(run(`DELETE FROM entry WHERE seat_id = '${seatId}'`)).toThrow(/append-only/);
  expect(run('DELETE FROM removal')).toThrow(/append-only/);
  expect(run(words)).not.toThrow();
  $client.exec('UPDATE removal SET done = 1');
  expect(run(words)).toThrow(/append-only/);
  expect(run('UPDATE removal SET done = 0')).toThrow(/done once/);
});

it('BL9: in an anonymous panel a removal names the author of nothing: notes of the talk, of cards and of pictures stay as they were said', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, seats, seatId } = await written(server);
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, puppies } =
    await owner.api.setup.get.query({ id });
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: [],
    order,
    plan: { ...usualPlan, discussion: 'anonymous' },
  });
  const sent = await sendPhoto(owner, {
    evaluation: id,
    puppy: puppies[0]?.id ?? '',
    bytes: await plainPicture(),
    id: 'f'.repeat(32),
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const subject = (await mentor.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  const bodies = [
    { kind: 'note', criterion: null, text: 'quince on the card' },
    { kind: 'fair', fair: false, why: 'a private why' },
  ] as const;
  await mentor.api.card.submit.mutate({
    id,
    entries: bodies.map((body) => ({ id: systemRandom.id(), subject, counter: 1, madeAt: 1, body })),
  });
  await mentor.api.photo.point.mutate({
    id,
    photoId: sent.id ?? '',
    pointerId: systemRandom.id(),
    pointer: { kind: 'ring', from: { x: 0.1, y: 0.1 }, to: { x: 0.2, y: 0.2 }, note: 'quince on a picture' },
  });
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  await mentor.api.board.addNote.mutate({
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: null,
    otherPuppyId: null,
    criterion: null,
    text: 'quince in the talk',
  });
  const said = async () => {
    const { notes, unfair, asides } = await owner.api.board.get.query({ id });
    return JSON.stringify([
      notes,
      unfair,
      asides,
      await owner.api.board.notes.query({ id }),
      await owner.api.photo.marks.query({ id }),
    ]);
  };
  const before = await said();
  await mentor.api.person.remove.mutate({ id, seatId });
  expect(before).toMatch(/quince on the card.*quince in the talk.*quince on a picture/);
  expect(await said()).toBe(before);
  expect(dataOf(server.runtime.db)).not.toMatch(/quincia|medlar|quince dam|a private why/i);
  const file = join(mkdtempSync(join(tmpdir(), 'evenstack-removed-')), 'copy.db');
  server.runtime.db.$client.exec(`VACUUM INTO '${file}'`);
  expect(verifyData(file).faults).toEqual([]);
  rmSync(dirname(file), { recursive: true });
});
