import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inTransaction } from '#db/transaction';
import { open } from '#db/open';
import { findRecordHead, recordHash } from '#db/queries/record';
import { verifyCommand } from '#server/cli/verify';
import { verifyData } from '#server/reveal/verifyData';
import { holdTime } from '#tests/support/latency';
import { playToReveal, scoreCard } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

let folder = '';
let sound = '';
let bare = '';

/** One evaluation revealed and one being scored, as a server left them. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-verify-'));
  sound = join(folder, 'sound.db');
  await using server = await startTestServer();
  const owner = await server.owner();
  await playToReveal(await seedQuillmarsh(owner, { puppies: 2 }));
  const open = await seedQuillmarsh(owner, { puppies: 2 });
  await owner.api.evaluation.openRound.mutate({ id: open.id });
  await scoreCard(owner, open.id, () => 3);
  server.runtime.db.$client.exec(`VACUUM INTO '${sound}'`);
  bare = join(folder, 'bare.db');
  copyFileSync(sound, bare);
  const client = new Sqlite(bare);
  for (const name of client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all())
    client.exec(`DROP TRIGGER "${name}"`);
  client.close();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(...args: string[]): Promise<{ readonly status: number; readonly said: string }> {
  const lines: string[] = [];
  const status = await verifyCommand(args, {
    answer: (line) => lines.push(line),
    complain: (line) => lines.push(line),
  });
  return { status, said: lines.join('\n') };
}

/** A copy of the sound file after `change`, with everything out of the way that would refuse it. */
function changed(change: (client: Sqlite.Database) => void): string {
  const file = join(folder, 'changed.db');
  copyFileSync(bare, file);
  const client = new Sqlite(file);
  client.pragma('journal_mode = OFF');
  client.pragma('synchronous = OFF');
  client.pragma('foreign_keys = OFF');
  client.pragma('ignore_check_constraints = ON');
  change(client);
  client.close();
  return file;
}

it('SC3: a file as the server left it is sound, and is not changed by the check', async () => {
  const before = new Sqlite(sound, { readonly: true }).prepare('SELECT count(*) AS n FROM record').get();
  const { status, said } = await run('--json', sound);
  expect([status, JSON.parse(said)]).toMatchObject([
    0,
    { sound: true, faults: [], commitments: 4, snapshots: 1, unbound: 0 },
  ]);
  expect(new Sqlite(sound, { readonly: true }).prepare('SELECT count(*) AS n FROM record').get()).toEqual(before);
  expect((await run(sound)).said).toMatch(
    /sound\.db: sound\n {2}record: \d+ lines, head [0-9a-f]{64}\n {2}entries: \d+, commitments: 4, snapshots: 1/,
  );
});

/** What the record and a card are made of. Of a card: what is in force, the entry behind it, and what binds it. */
const places = [
  ['record', 'evaluation_id'],
  ['record', 'at'],
  ['record', 'actor'],
  ['record', 'kind'],
  ['record', 'body'],
  ['record', 'previous_hash'],
  ['record', 'hash'],
  ['record', 'seq'],
  ['answer', 'round_id'],
  ['answer', 'seat_id'],
  ['answer', 'subject'],
  ['answer', 'field'],
  ['answer', 'counter'],
  ['answer', 'device_id'],
  ['answer', 'entry_id'],
  ['answer', 'body'],
  ['answer', 'value'],
  ['entry', 'id'],
  ['entry', 'round_id'],
  ['entry', 'seat_id'],
  ['entry', 'subject'],
  ['entry', 'field'],
  ['entry', 'counter'],
  ['entry', 'device_id'],
  ['entry', 'body'],
  ['entry', 'value'],
  ['entry', 'status'],
  ['commitment', 'round_id'],
  ['commitment', 'seat_id'],
  ['commitment', 'nonce'],
  ['commitment', 'hash'],
  ['commitment', 'made_by'],
  ['snapshot', 'round_id'],
  ['snapshot', 'body'],
] as const;

/** Turns one bit of one byte of one cell; false where the cell is empty. */
function flip(
  client: Sqlite.Database,
  [table, column]: readonly [string, string],
  { row, byte, bit }: { readonly row: number; readonly byte: number; readonly bit: number },
): boolean {
  const rows = client
    .prepare<[], { place: number }>(
      `SELECT rowid AS place FROM "${table}" WHERE "${column}" IS NOT NULL AND "${column}" <> '' ORDER BY rowid`,
    )
    .all();
  const place = rows[row % Math.max(1, rows.length)]?.place;
  if (place === undefined) return false;
  const cell = client
    .prepare<[number], string | number>(`SELECT "${column}" FROM "${table}" WHERE rowid = ?`)
    .pluck()
    .get(place);
  const update = client.prepare(`UPDATE "${table}" SET "${column}" = ? WHERE rowid = ?`);
  if (typeof cell === 'number') {
    // Far above any other, so that a number that is a key stays one of a kind.
    update.run(cell ^ (1 << (20 + bit)), place);
    return true;
  }
  const bytes = Buffer.from(cell ?? '', 'utf8');
  const at = byte % bytes.length;
  // Within seven bits, so that the text stays text.
  bytes[at] = (bytes[at] ?? 0) ^ (1 << (bit % 5));
  update.run(bytes.toString('utf8'), place);
  return true;
}

it('SC3: any single byte changed in the record or in a card is found', () => {
  const missed: unknown[] = [];
  const spot = fc.record({ row: fc.nat(10_000), byte: fc.nat(100_000), bit: fc.nat(6) });
  for (const [at, place] of places.entries()) {
    for (const one of fc.sample(spot, { seed: 1000 + at, numRuns: 8 })) {
      let done = false;
      const file = changed((client) => {
        done = flip(client, place, one);
      });
      if (!done) continue;
      let faults = 1;
      try {
        faults = verifyData(file).faults.length;
      } catch {
        // SQLite's own check, or a key that leads nowhere.
      }
      if (faults === 0) missed.push([place, one]);
    }
  }
  expect(missed).toEqual([]);
});

it.each([
  ['a line taken out of the record', 'DELETE FROM record WHERE seq = 5', 'record'],
  [
    'a line added to the record',
    "INSERT INTO record SELECT seq + 1, evaluation_id, at, actor, 'sealed', body, hash, hash FROM record ORDER BY seq DESC LIMIT 1",
    'record',
  ],
  ['an answer taken away', 'DELETE FROM answer WHERE rowid = 3', 'entry'],
  ['an entry taken away', 'DELETE FROM entry WHERE rowid = 3', 'file'],
  [
    'a score changed in entry, answer and snapshot alike',
    `UPDATE entry SET value = 7, body = json_replace(body, '$.value', 7) WHERE rowid = 1; UPDATE answer SET value = 7, body = json_replace(body, '$.value', 7) WHERE entry_id = (SELECT id FROM entry WHERE rowid = 1)`,
    'commitment',
  ],
  ['every commitment taken away', 'DELETE FROM commitment', 'commitment'],
  ['a snapshot taken away', 'DELETE FROM snapshot', 'snapshot'],
])('SC3: %s is found', async (_, sql, what) => {
  const file = changed((client) => client.exec(sql));
  const { status, said } = await run('--json', file);
  const { faults } = JSON.parse(said) as { readonly faults: readonly { readonly what: string }[] };
  expect(status).toBe(1);
  expect(faults.map((fault) => fault.what)).toContain(what);
});

it('BL1: whatever it finds, the check says where and never what was scored', async () => {
  const file = changed((client) => {
    client.exec(
      `UPDATE answer SET body = '{"kind":"note","criterion":null,"text":"quince"}'; UPDATE entry SET value = 6; UPDATE snapshot SET body = 'quince'`,
    );
  });
  for (const { said } of [await run(file), await run('--json', file)]) {
    expect(said).toMatch(/entry/);
    expect(said).not.toMatch(/quince|"value"|score|\bneck\b|topline/);
  }
});

it.each([
  ['no data file', 'not a database at all, whatever its name says'],
  ['an empty file', ''],
])('SC3: %s is answered with its fault, not with a crash', async (_, content) => {
  const file = join(folder, 'other.db');
  writeFileSync(file, content);
  const { status, said } = await run(file);
  expect([status, said]).toEqual([1, expect.stringContaining('NOT SOUND')]);
  expect((await run(join(folder, 'nowhere.db'))).status).toBe(1);
  expect((await run('--odd', file)).status).toBe(2);
});

it('SC3: 100,000 entries and as many lines of the record are all checked, and sound', () => {
  const file = join(folder, 'large.db');
  copyFileSync(sound, file);
  const db = open(file);
  const entries = 100_000;
  inTransaction(db, () => {
    const client = db.$client;
    const [first] = client
      .prepare<[], { round_id: string; seat_id: string; device_id: string; subject: string }>(
        "SELECT e.* FROM entry e JOIN round r ON r.id = e.round_id WHERE r.state = 'open' LIMIT 1",
      )
      .all();
    const add = client.prepare(
      `INSERT INTO entry (id, round_id, seat_id, device_id, subject, field, counter, body, value, status, made_at, received_at) VALUES (?, ?, ?, ?, ?, 'score:neck', ?, ?, 5, 'applied', 1, 1)`,
    );
    const hex = (at: number, mark: string) => at.toString(16).padStart(31, '0') + mark;
    const body = '{"kind":"score","criterion":"neck","value":5,"cannotJudge":false}';
    // Every fifth is an edit of the one before: as many registers as a hundred evaluations fill.
    for (let at = 0; at < entries; at += 1)
      add.run(
        hex(at, 'a'),
        first?.round_id,
        first?.seat_id,
        first?.device_id,
        hex(Math.floor(at / 5), 'b'),
        at + 1,
        body,
      );
    client.exec(
      `INSERT INTO answer SELECT round_id, seat_id, subject, field, counter, device_id, id, body, value FROM entry e WHERE e.rowid IN (SELECT max(rowid) FROM entry WHERE id LIKE '%a' AND made_at = 1 AND subject LIKE '0000000%b' GROUP BY subject)`,
    );
    const line = client.prepare(
      'INSERT INTO record (seq, evaluation_id, at, actor, kind, body, previous_hash, hash) VALUES (?, NULL, 1, ?, ?, ?, ?, ?)',
    );
    let { seq, hash: previousHash } = findRecordHead(db);
    for (let at = 0; at < entries; at += 1) {
      const one = {
        previousHash,
        seq: (seq += 1),
        evaluationId: null,
        at: 1,
        actor: 'owner',
        kind: 'owner-signed-in',
        detail: '',
      };
      const hash = recordHash(one);
      line.run(one.seq, one.actor, one.kind, one.detail, previousHash, hash);
      previousHash = hash;
    }
  });
  db.$client.close();
  // Processor time: what else the machine does meanwhile is not this check's.
  const before = process.cpuUsage();
  const report = verifyData(file);
  const { user, system } = process.cpuUsage(before);
  expect(report.faults).toEqual([]);
  expect([report.entries, report.lines].every((count) => count >= entries)).toBe(true);
  holdTime('100,000 entries checked, processor time', (user + system) / 1000, 4000);
});
