import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { countRows } from '#db/checkFile';
import { picturesFolder } from '#db/picturesFolder';
import { recordHash } from '#db/queries/record';
import { newArrival, removeArrivals } from '#server/carry/importEvaluation';
import { verifyData } from '#server/reveal/verifyData';
import { beginBindingOfAll } from '#server/commands/setup';
import { systemRandom } from '#server/random';
import { bringEvaluation, fetchEvaluation, textOf, unzipped, withText, zipped } from '#tests/support/carry';
import { codeOf } from '#tests/support/codeOf';
import { lockCard } from '#tests/support/lockCard';
import { addPaperSeat, filledSheet, paperSeatOf } from '#tests/support/paperSeat';
import { playWholeDay } from '#tests/support/playWholeDay';
import { playToReveal, scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

type Board = Awaited<ReturnType<Awaited<ReturnType<TestServer['owner']>>['api']['board']['get']['query']>>;

let folder = '';
/** A sealed day as its own server let it go, its board there, and a smaller one with two pictures. */
const whole: { id: string; bytes: Buffer; board: Board | null } = { id: '', bytes: Buffer.alloc(0), board: null };
const small: { id: string; bytes: Buffer } = { id: '', bytes: Buffer.alloc(0) };

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-carry-'));
  await using server = await startTestServer({ seed: 'origin' });
  const day = await playWholeDay(server);
  whole.id = day.id;
  whole.board = await day.owner.api.board.get.query({ id: day.id });
  whole.bytes = (await fetchEvaluation(day.owner, day.id)).bytes;
  const other = await seedQuillmarsh(day.owner, { puppies: 2 });
  const [puppy = ''] = (await other.owner.api.evaluation.get.query({ id: other.id })).puppies.map((one) => one.id);
  for (const shade of [30, 90])
    await sendPhoto(other.owner, { evaluation: other.id, puppy, bytes: await plainPicture(shade) });
  await playToReveal(other);
  small.id = other.id;
  small.bytes = (await fetchEvaluation(other.owner, other.id)).bytes;
  expect((await bringEvaluation(day.owner, whole.bytes)).code).toBe('already-here');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const second = () => startTestServer({ seed: 'second' });

function verified(server: TestServer): ReturnType<typeof verifyData> {
  const copy = join(folder, 'copy.db');
  rmSync(copy, { force: true });
  server.runtime.db.$client.exec(`VACUUM INTO '${copy}'`);
  return verifyData(copy);
}

/** Everything that a refusal must leave as it was: rows, the head of the record, files beside the data. */
function standing({ runtime: { db } }: TestServer) {
  const names = (path: string) => {
    try {
      return readdirSync(path).sort();
    } catch {
      return [];
    }
  };
  const beside = names(dirname(db.$client.name)).filter((name) => !/-(wal|shm)$/.test(name));
  return {
    rows: [...countRows(db.$client)],
    beside,
    pictures: names(picturesFolder(db)),
    head: verifyHead(db.$client.prepare('SELECT max(seq) AS seq FROM record').get()),
  };
}

const verifyHead = (row: unknown) => JSON.stringify(row);

it('SC3: a day carried to a second server is the same there: sound, the same board to six places, and the same file again byte for byte', async () => {
  await using server = await second();
  const owner = await server.owner();
  const brought = await bringEvaluation(owner, whole.bytes);
  expect(brought).toEqual({ status: 200, id: whole.id, code: null, message: null });
  const report = verified(server);
  expect([report.faults, report.unbound, report.untold]).toEqual([[], 0, 0]);
  expect(report.recomputed).toBeGreaterThan(0);
  const board = await owner.api.board.get.query({ id: whole.id });
  expect(toSixPlaces({ ...board, viewer: null })).toEqual(toSixPlaces({ ...whole.board, viewer: null }));
  expect((await fetchEvaluation(owner, whole.id)).bytes.equals(whole.bytes)).toBe(true);
  // A server that starts again finds nothing to begin.
  beginBindingOfAll(server.runtime);
  expect(verified(server).faults).toEqual([]);
});

const toSixPlaces = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, one: unknown) =>
      typeof one === 'number' && !Number.isInteger(one) ? Number(one.toFixed(6)) : one,
    ),
  );

it('SC3, BL5: cards typed from paper arrive with who typed them, and the same file leaves again', async () => {
  await using server = await startTestServer({ seed: 'paper' });
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
  const { id, owner, seats } = day;
  const seatId = await addPaperSeat(day);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, ...Object.values(seats)]) {
    await scoreCard(client, id, steadyCell);
    await lockCard(client, id);
  }
  const bodies = await filledSheet(owner, id, { score: 5, word: 'a word' });
  for (const { showingId } of (await paperSeatOf(owner, id, seatId)).sheets)
    await owner.api.paper.type.mutate({ id, seatId, showingId, bodies });
  await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
  await owner.api.evaluation.revealRound.mutate({ id });
  const { bytes } = await fetchEvaluation(owner, id);
  const board = await owner.api.board.get.query({ id });
  await using there = await second();
  const stranger = await there.owner();
  expect((await bringEvaluation(stranger, bytes)).code).toBeNull();
  expect(verified(there).faults).toEqual([]);
  expect((await stranger.api.board.get.query({ id })).blindTo).toEqual(
    expect.arrayContaining([...board.blindTo.filter((line) => line.includes('typed from paper'))]),
  );
  expect(board.blindTo.join(' ')).toContain('typed from paper');
  expect((await fetchEvaluation(stranger, id)).bytes.equals(bytes)).toBe(true);
});

it('SC3: pictures arrive decoded anew, shown to the owner, with all else of their rows as it was', async () => {
  await using server = await second();
  const owner = await server.owner();
  expect((await bringEvaluation(owner, small.bytes)).id).toBe(small.id);
  const { photos, may } = await owner.api.photo.list.query({ id: small.id });
  expect([photos.length, may]).toEqual([2, { add: false, keep: false, list: false }]);
  for (const { id } of photos)
    for (const size of ['large', 'small'])
      expect(
        (await fetch(`${owner.url}/api/photo/${id}/${size}`, { headers: { cookie: owner.cookie() } })).status,
      ).toBe(200);
  const [before, after] = [
    textOf(await unzipped(small.bytes)),
    textOf(await unzipped((await fetchEvaluation(owner, small.id)).bytes)),
  ];
  // A picture is pressed anew, so its bytes and their hash are others; nothing else is.
  const named = { name: '', sha256: '', bytes: 0 };
  const bare = (file: typeof before) => ({ ...file, pictures: file.pictures.map((one) => ({ ...one, ...named })) });
  expect(bare(after)).toEqual(bare(before));
  expect(verified(server).faults).toEqual([]);
});

it('SC3: an imported evaluation says so everywhere, is only read, and lets nobody in', async () => {
  await using server = await second();
  const owner = await server.owner();
  await bringEvaluation(owner, small.bytes);
  const id = small.id;
  const view = await owner.api.evaluation.get.query({ id });
  const { origin } = textOf(await unzipped(small.bytes));
  expect(view.imported).toEqual({ at: server.runtime.clock.now(), writtenAt: origin.at, head: origin.head });
  expect(view.viewer).toMatchObject({ owner: true, seatId: null, reads: true });
  expect((await owner.api.evaluation.list.query())[0]).toMatchObject({ id, importedAt: server.runtime.clock.now() });
  const lines = await owner.api.record.list.query({ id });
  expect([lines[0]?.kind, lines.at(-1)?.kind]).toEqual(['evaluation-created', 'imported']);
  const [puppyId = '', otherId = ''] = view.puppies.map((puppy) => puppy.id);
  const slotId = view.slots[0]?.id ?? '';
  const seatId = view.seats[1]?.id ?? '';
  // Whoever picks is shown a result first, which is worked out once.
  await owner.api.board.get.query({ id });
  const before = standing(server);
  const tries: Readonly<Record<string, () => Promise<unknown>>> = {
    look: () =>
      owner.api.look.open.mutate({
        id,
        slotId,
        medium: 'table',
        pairs: [{ firstPuppyId: puppyId, secondPuppyId: otherId }],
      }),
    pick: () => owner.api.decision.make.mutate({ id, slotId, puppyId, unexamined: [], reason: 'x', preference: true }),
    seal: () => owner.api.decision.seal.mutate({ id }),
    behaviour: () =>
      owner.api.addendum.write.mutate({ id, addendum: { kind: 'behaviour', puppyId, text: 'x', by: 'x' } }),
    second: () =>
      owner.api.evaluation.openSecondRound.mutate({
        id,
        cells: [{ puppyId, criterion: view.sheet.criteria[0]?.key ?? '' }],
      }),
    reissue: () => owner.api.setup.reissue.mutate({ id, seatId }),
    words: () => owner.api.person.remove.mutate({ id, seatId }),
  };
  for (const [name, attempt] of Object.entries(tries))
    expect([name, await attempt().then(() => 'done', codeOf)]).toEqual([name, 'imported']);
  const [photo] = (await owner.api.photo.list.query({ id })).photos;
  expect((await sendPhoto(owner, { evaluation: id, puppy: puppyId, bytes: await plainPicture(160) })).code).toBe(
    'not-allowed',
  );
  expect(await owner.api.photo.remove.mutate({ id, photoId: photo?.id ?? '' }).then(() => 'done', codeOf)).toBe(
    'imported',
  );
  expect(standing(server)).toEqual(before);
  const tokens = server.runtime.db.$client
    .prepare<[], string>('SELECT token_hash FROM device WHERE id IN (SELECT device_id FROM entry)')
    .pluck()
    .all();
  expect(tokens.length).toBeGreaterThan(2);
  expect(tokens.filter((token) => !token.startsWith('imported:'))).toEqual([]);
  expect((await owner.api.session.me.query()).owner).toBe(true);
});

it('SC2: the same file a second time is told to be here already, and changes nothing', async () => {
  await using server = await second();
  const owner = await server.owner();
  await bringEvaluation(owner, small.bytes);
  const before = standing(server);
  expect((await bringEvaluation(owner, small.bytes)).code).toBe('already-here');
  expect(standing(server)).toEqual(before);
});

it('BL2: only the owner brings a file in, and one that nobody asked for from another page is refused at the door', async () => {
  await using server = await second();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 1 });
  expect((await bringEvaluation(day.seats['mentor'] ?? day.owner, small.bytes)).code).toBe('not-allowed');
  expect((await bringEvaluation(server.stranger(), small.bytes)).code).toBe('not-signed-in');
  const foreign = await fetch(`${server.url}/api/evaluation`, {
    method: 'POST',
    body: new Uint8Array(small.bytes),
    headers: { cookie: day.owner.cookie(), origin: 'https://elsewhere.example' },
  });
  expect(foreign.status).toBe(403);
});

type Change = (bytes: Buffer) => Promise<Buffer>;
const inText =
  (change: Parameters<typeof withText>[1]): Change =>
  (bytes) =>
    withText(bytes, change);

const refusals: readonly (readonly [string, RegExp, Change])[] = [
  ['no evaluation at all', /damaged or cut short/, async () => Buffer.from('puppy,evaluator,criterion,score\n')],
  [
    'some other JSON',
    /no evaluation from Evenstack/,
    async () => Buffer.from('{"format":"something else","version":1}'),
  ],
  [
    'a later version',
    /version 2; this Evenstack reads version 1/,
    inText((file) => Object.assign(file, { version: 2 })),
  ],
  [
    'a text alone where pictures belong to it',
    /pictures of this evaluation \(2\) are not in its text alone/,
    async (bytes) => (await unzipped(bytes)).get('evaluation.json') ?? Buffer.alloc(0),
  ],
  ['a file cut short', /damaged, cut short/, async (bytes) => bytes.subarray(0, bytes.length - 40)],
  ['a zip without the text', /no evaluation.json/, async () => zipped([['readme.txt', Buffer.from('x')]])],
  [
    'a name twice',
    /twice/,
    async (bytes) => {
      const parts = await unzipped(bytes);
      const [first = ['x', Buffer.alloc(1)] as const] = parts;
      return zipped([...parts, first]);
    },
  ],
  [
    'a name that leads out of the folder',
    /damaged, cut short|packed in a way/,
    async (bytes) =>
      Buffer.from(
        (await zipped([...(await unzipped(bytes)), ['pictures/aa/evil', Buffer.from('x')]]))
          .toString('latin1')
          .replaceAll('pictures/aa/evil', '../../../../evil0'.slice(0, 16)),
        'latin1',
      ),
  ],
  [
    'a file that the text does not name',
    /does not name/,
    async (bytes) => zipped([...(await unzipped(bytes)), ['pictures/more.webp', Buffer.from('x')]]),
  ],
  ['a picture missing', /is not in the zip/, async (bytes) => zipped([...(await unzipped(bytes))].slice(0, -1))],
  [
    'a picture with other bytes',
    /not as large|not the one/,
    async (bytes) => {
      const parts = await unzipped(bytes);
      for (const [name, one] of parts)
        if (name.startsWith('pictures/'))
          parts.set(name, Buffer.concat([one.subarray(0, -1), Buffer.from([one.at(-1) === 1 ? 2 : 1])]));
      return zipped(parts);
    },
  ],
  [
    'a picture that says it is smaller than it is',
    /not as large/,
    inText((file) => file.pictures.forEach((one) => (one.bytes -= 1))),
  ],
  ['a part that unpacks to more than it announces', /damaged, cut short/, async (bytes) => overgrown(bytes)],
  ['a score changed', /not what was committed|not what was taken in/, inText((file) => changeScore(file, false))],
  [
    'a score changed in entry, answer and snapshot alike',
    /not what was committed|not the one in the record/,
    inText((file) => changeScore(file, true)),
  ],
  ['a line of the record taken out', /should have \d+ lines and has/, inText((file) => void file.lines.splice(4, 1))],
  [
    'a line taken out and the count with it',
    /does not hold/,
    inText((file) => {
      file.lines.splice(
        file.lines.findIndex((line) => line.kind === 'round-revealed'),
        1,
      );
      file.origin.lines -= 1;
    }),
  ],
  ['the words of a line changed', /does not follow/, inText((file) => file.lines.forEach((line) => (line.at += 1)))],
  ['a record that binds nothing', /does not bind all of it/, inText(bindNothing)],
  ['a row taken out', /does not hold/, inText((file) => void file.rows.commitment.pop())],
  [
    'an unrevealed round',
    /rows › round/,
    inText((file) => file.rows.round.forEach((round) => Object.assign(round, { state: 'closed' }))),
  ],
  [
    'an open second look',
    /rows › look_batch/,
    inText((file) =>
      file.rows.look_batch.push({
        id: 'a'.repeat(32),
        evaluation_id: file.rows.evaluation[0]?.id ?? '',
        slot_id: 'b'.repeat(32),
        position: 0,
        state: 'open' as 'revealed',
        medium: 'table',
        opened_at: 1,
        revealed_at: 1,
      }),
    ),
  ],
  [
    'a column that no file has',
    /rows › device/,
    inText((file) => file.rows.device.forEach((row) => Object.assign(row, { token_hash: 'a'.repeat(64) }))),
  ],
  [
    'a row of an evaluation that is here',
    /does not hold/,
    inText((file) => file.rows.purpose.forEach((row) => (row.evaluation_id = 'c'.repeat(32)))),
  ],
  ['two evaluations', /one evaluation/, inText((file) => file.rows.evaluation.push(...file.rows.evaluation))],
  ['a head that the lines go beyond', /does not follow/, inText((file) => (file.origin.head.seq = 3))],
];

/** As whoever can write a file would: what binds is gone, and every line is chained anew. */
function bindNothing(file: Text): void {
  const evaluationId = file.rows.evaluation[0]?.id ?? '';
  file.lines = file.lines.filter((line) => line.kind !== 'binding-begun');
  file.origin.lines = file.lines.length;
  for (const [at, line] of file.lines.entries()) {
    const before = file.lines[at - 1];
    if (before?.seq === line.seq - 1) line.previous_hash = before.hash;
    line.body = line.body.replace(/ ?\[.*\]$/, '');
    line.hash = recordHash({
      previousHash: line.previous_hash,
      seq: line.seq,
      evaluationId,
      at: line.at,
      actor: line.actor,
      kind: line.kind,
      detail: line.body,
    });
  }
  file.origin.head = { seq: (file.lines.at(-1)?.seq ?? 0) + 1, hash: 'd'.repeat(64) };
}

type Text = Parameters<Parameters<typeof withText>[1]>[0];

function changeScore(file: Text, everywhere: boolean): void {
  const answer = file.rows.answer.find(
    (row) => row.field.startsWith('score:') && row.value !== null && row.value > 2 && row.value < 6,
  );
  if (!answer) throw new Error('there is no score to change');
  const to = { body: answer.body.replace(`"value":${answer.value}`, '"value":1'), value: 1 };
  Object.assign(answer, to);
  if (!everywhere) return;
  for (const entry of file.rows.entry) if (entry.id === answer.entry_id) Object.assign(entry, to);
  for (const snapshot of file.rows.snapshot) {
    const body = JSON.parse(snapshot.body) as {
      answers: { seatId: string; subject: string; field: string; body: { value: number } }[];
    };
    for (const one of body.answers)
      if (one.seatId === answer.seat_id && one.subject === answer.subject && one.field === answer.field)
        one.body.value = 1;
    snapshot.body = JSON.stringify(body);
  }
}

/** The directory announces a part at half its size, as a zip that grows without end would. */
async function overgrown(bytes: Buffer): Promise<Buffer> {
  const parts = await unzipped(bytes);
  const size = parts.get('evaluation.json')?.length ?? 0;
  const zip = await zipped(parts);
  const [said, lied] = [Buffer.alloc(4), Buffer.alloc(4)];
  said.writeUInt32LE(size);
  lied.writeUInt32LE(Math.floor(size / 2));
  const directory = zip.indexOf(Buffer.from('PK\u0001\u0002', 'latin1'));
  const at = zip.indexOf(said, directory);
  lied.copy(zip, at);
  return zip;
}

it.each(refusals)('SC3: %s is refused with one sentence, and nothing is changed', async (_, words, change) => {
  await using server = await second();
  const owner = await server.owner();
  const before = standing(server);
  const { code, message } = await bringEvaluation(owner, await change(small.bytes));
  expect([code, message]).toEqual(['file-refused', expect.stringMatching(words)]);
  expect(standing(server)).toEqual(before);
  expect(server.logged).toEqual([]);
});

it.each([
  [
    'a line that it came with changed',
    'UPDATE imported_line SET at = at + 1 WHERE seq = (SELECT min(seq) FROM imported_line)',
  ],
  ['a line that it came with taken out', "DELETE FROM imported_line WHERE kind = 'seat-joined'"],
  ['all lines that it came with taken out', 'DELETE FROM imported_line'],
  ['the mark taken away', 'DELETE FROM imported'],
  ['another origin in the mark', "UPDATE imported SET head_hash = '" + 'd'.repeat(64) + "'"],
  ['the line that tells of the import taken out, as the newest', "DELETE FROM record WHERE kind = 'imported'"],
  [
    'a score changed',
    'UPDATE answer SET value = 2, body = replace(body, \'"value":\' || value, \'"value":2\') WHERE rowid = (SELECT min(rowid) FROM answer WHERE value > 3)',
  ],
])('SC3: of an imported evaluation %s: found by the check', async (_, sql) => {
  await using server = await second();
  await bringEvaluation(await server.owner(), small.bytes);
  expect(verified(server).faults).toEqual([]);
  const client = new Sqlite(join(folder, 'copy.db'));
  for (const name of client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all())
    client.exec(`DROP TRIGGER "${name}"`);
  expect(client.prepare(sql).run().changes).toBeGreaterThan(0);
  client.close();
  expect(verifyData(join(folder, 'copy.db')).faults.length).toBeGreaterThan(0);
});

it('SC3: what an arrival left that a stop broke off is gone with the next start, and nothing else', async () => {
  await using server = await second();
  await bringEvaluation(await server.owner(), small.bytes);
  const before = standing(server);
  writeFileSync(join(await newArrival(server.runtime.db), 'arrived'), 'half');
  expect(standing(server)).not.toEqual(before);
  removeArrivals(server.runtime.db);
  expect(standing(server)).toEqual(before);
});

const spoken = fc.string({ unit: 'grapheme', maxLength: 30 });

it('SC3: any panel carried over is sound there, and the same file again', async () => {
  const days = fc.record({
    puppies: fc.integer({ min: 2, max: 4 }),
    values: fc.array(fc.option(fc.integer({ min: 1, max: 7 })), { minLength: 40, maxLength: 40 }),
    words: spoken,
  });
  for (const { puppies, values, words } of fc.sample(days, { seed: 7, numRuns: 4 })) {
    await using origin = await startTestServer({ seed: `origin ${puppies} ${words}` });
    const day = await seedQuillmarsh(await origin.owner(), { puppies });
    let at = 0;
    await day.owner.api.evaluation.openRound.mutate({ id: day.id });
    for (const client of [day.owner, ...Object.values(day.seats)]) {
      await scoreCard(client, day.id, ({ twoSided }) => {
        const value = values[(at += 1) % values.length] ?? null;
        return value === null || !twoSided ? value : value - 4;
      });
      const subject = (await client.api.evaluation.get.query({ id: day.id })).round?.showings[0]?.id ?? '';
      await client.api.card.submit.mutate({
        id: day.id,
        entries: [
          {
            id: systemRandom.id(),
            subject,
            counter: 1,
            madeAt: 1,
            body: { kind: 'note', criterion: null, text: words },
          },
        ],
      });
    }
    for (const client of [...Object.values(day.seats), day.owner]) await lockCard(client, day.id);
    await day.owner.api.evaluation.revealRound.mutate({ id: day.id });
    const board = await day.owner.api.board.get.query({ id: day.id });
    const { bytes } = await fetchEvaluation(day.owner, day.id);
    await using server = await startTestServer({ seed: 'second' });
    const owner = await server.owner();
    expect(await bringEvaluation(owner, bytes)).toMatchObject({ id: day.id, message: null });
    expect(verified(server).faults).toEqual([]);
    expect(toSixPlaces({ ...(await owner.api.board.get.query({ id: day.id })), viewer: null })).toEqual(
      toSixPlaces({ ...board, viewer: null }),
    );
    expect((await fetchEvaluation(owner, day.id)).bytes.equals(bytes)).toBe(true);
    const text = (await unzipped(bytes)).get('evaluation.json') ?? Buffer.alloc(0);
    await using third = await startTestServer({ seed: 'third' });
    expect((await bringEvaluation(await third.owner(), text)).id).toBe(day.id);
  }
});
