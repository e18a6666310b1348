import { createHash } from 'node:crypto';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { KeptStore } from '#app/_data/keptStore';
import { witnessHead } from '#app/_data/witness';
import { recordHash } from '#db/queries/record';
import { open } from '#db/open';
import { beginBindingOfAll } from '#server/commands/setup';
import { verifyCommand } from '#server/cli/verify';
import { verifyData, type DataReport } from '#server/reveal/verifyData';
import { fillFirstVersion } from '#tests/support/fillFirstVersion';
import { playWholeDay } from '#tests/support/playWholeDay';
import { startTestServer } from '#tests/support/startTestServer';

let folder = '';
let sound = '';
let id = '';

/** A day played to its seal, as the server left it. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-tampers-'));
  sound = join(folder, 'sound.db');
  await using server = await startTestServer();
  ({ id } = await playWholeDay(server));
  server.runtime.db.$client.exec(`VACUUM INTO '${sound}'`);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sha = (text: string) => createHash('sha256').update(text).digest('hex');

type Tamper = (client: Sqlite.Database) => void;

/** A copy of a file after somebody who can write it has changed it, triggers dropped first. */
function tampered(change: Tamper, from = sound): string {
  const file = join(folder, 'tampered.db');
  copyFileSync(from, file);
  const client = new Sqlite(file);
  for (const name of client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all())
    client.exec(`DROP TRIGGER "${name}"`);
  client.pragma('foreign_keys = OFF');
  change(client);
  client.close();
  return file;
}

const run =
  (sql: string): Tamper =>
  (client) =>
    void client.exec(sql);

const roundId = (position: number) => `(SELECT id FROM round WHERE position = ${position})`;

/** One score of the first round's mentor, changed wherever it stands: entries, answer, snapshot. */
const changeScore: Tamper = (client) => {
  const row = client
    .prepare<
      [],
      {
        entry_id: string;
        round_id: string;
        value: number;
        body: string;
        seat_id: string;
        subject: string;
        field: string;
      }
    >(
      `SELECT a.* FROM answer a JOIN seat s ON s.id = a.seat_id WHERE a.round_id = ${roundId(0)} AND s.label = 'mentor' AND a.field LIKE 'score:%' AND a.value BETWEEN 3 AND 5 ORDER BY a.subject, a.field LIMIT 1`,
    )
    .get();
  if (!row) throw new Error('there is no score to change');
  const body = row.body.replace(`"value":${row.value}`, `"value":${row.value + 2}`);
  client.prepare('UPDATE entry SET value = ?, body = ? WHERE id = ?').run(row.value + 2, body, row.entry_id);
  client.prepare('UPDATE answer SET value = ?, body = ? WHERE entry_id = ?').run(row.value + 2, body, row.entry_id);
  const snapshot = client
    .prepare<[string], { id: string; body: string }>('SELECT id, body FROM snapshot WHERE round_id = ?')
    .get(row.round_id);
  const told = JSON.parse(snapshot?.body ?? '{}') as {
    answers: { seatId: string; subject: string; field: string; body: { value?: number } }[];
  };
  const there = told.answers.find(
    (one) => one.seatId === row.seat_id && one.subject === row.subject && one.field === row.field,
  );
  if (there) there.body.value = row.value + 2;
  client.prepare('UPDATE snapshot SET body = ? WHERE id = ?').run(JSON.stringify(told), snapshot?.id);
};

/** The tamperer appends a line that follows from the last one, as the server would. */
function append(
  client: Sqlite.Database,
  line: { readonly kind: string; readonly actor?: string; readonly detail?: string },
): void {
  const last = client
    .prepare<[], { seq: number; hash: string }>('SELECT seq, hash FROM record ORDER BY seq DESC LIMIT 1')
    .get();
  const row = {
    previousHash: last?.hash ?? '',
    seq: (last?.seq ?? 0) + 1,
    evaluationId: id,
    at: 9,
    actor: line.actor ?? 'owner',
    kind: line.kind,
    detail: line.detail ?? '',
  };
  client
    .prepare('INSERT INTO record VALUES (?, ?, ?, ?, ?, ?, ?, ?)')
    .run(row.seq, id, row.at, row.actor, row.kind, row.detail, row.previousHash, recordHash(row));
}

const seatNamed = (client: Sqlite.Database, label: string) =>
  client.prepare<[string], string>('SELECT id FROM seat WHERE label = ?').pluck().get(label) ?? '';

const remove = (client: Sqlite.Database, label: string) =>
  client.prepare('INSERT INTO removal (seat_id, at, done) VALUES (?, 1, 1)').run(seatNamed(client, label));

/** Each takes one way; `what` must be among what the check names. */
const tampers: readonly (readonly [string, string, Tamper])[] = [
  [
    'scores changed, and a removal added to excuse them',
    'removal',
    (client) => (changeScore(client), remove(client, 'mentor')),
  ],
  [
    'scores changed, and the removal given a line of its own at the end of the record',
    'snapshot',
    (client) => {
      changeScore(client);
      remove(client, 'mentor');
      const bodies = client
        .prepare<[], string>('SELECT s.body FROM snapshot s JOIN round r ON r.id = s.round_id ORDER BY r.position')
        .pluck()
        .all();
      append(client, {
        kind: 'words-removed',
        detail: `seat:${seatNamed(client, 'mentor')} ${bodies.map((body) => sha(body)).join(' ')}`,
      });
    },
  ],
  [
    'scores changed, and the commitment marked void',
    'commitment',
    (client) => (
      changeScore(client),
      client.exec(
        `UPDATE commitment SET voided_at = 1 WHERE round_id = ${roundId(0)} AND voided_at IS NULL AND seat_id = '${seatNamed(client, 'mentor')}'`,
      )
    ),
  ],
  [
    'scores changed, the snapshot deleted and the round set back to closed',
    'round',
    (client) => (
      changeScore(client),
      client.exec(
        `DELETE FROM snapshot WHERE round_id = ${roundId(0)}; UPDATE round SET state = 'closed', revealed_at = NULL WHERE position = 0`,
      )
    ),
  ],
  [
    'scores changed, the snapshot deleted and the round set back to open',
    'round',
    (client) => (
      changeScore(client),
      client.exec(
        `DELETE FROM snapshot WHERE round_id = ${roundId(0)}; UPDATE round SET state = 'open', revealed_at = NULL, closed_at = NULL WHERE position = 0`,
      )
    ),
  ],
  [
    'a commitment made anew under another nonce',
    'commitment',
    run(
      `UPDATE commitment SET nonce = '${'a'.repeat(32)}', hash = '${'b'.repeat(64)}' WHERE rowid = (SELECT max(rowid) FROM commitment)`,
    ),
  ],
  [
    'the void commitments of the reopened round taken away',
    'commitment',
    run('DELETE FROM commitment WHERE voided_at IS NOT NULL'),
  ],
  ['all commitments taken away', 'commitment', run('DELETE FROM commitment')],
  [
    'a lock taken away',
    'lock',
    run(`UPDATE seat_round SET locked_at = NULL WHERE rowid = (SELECT min(rowid) FROM seat_round)`),
  ],
  [
    'a lock added for the seat that had not locked',
    'lock',
    run(`INSERT OR REPLACE INTO seat_round SELECT ${roundId(1)}, id, 5 FROM seat WHERE label = 'removed 3'`),
  ],
  ['the removal of a person’s words taken away', 'removal', run('DELETE FROM removal')],
  [
    'the second round taken away',
    'round',
    run(
      `${['discussion_note', 'photo_pointer', 'photo_measurement', 'pointer_removal', 'raised_hand'].map((table) => `UPDATE ${table} SET round_id = ${roundId(0)} WHERE round_id = ${roundId(1)}`).join('; ')}; DELETE FROM snapshot WHERE round_id = ${roundId(1)}; DELETE FROM commitment WHERE round_id = ${roundId(1)}; DELETE FROM seat_round WHERE round_id = ${roundId(1)}; DELETE FROM answer WHERE round_id = ${roundId(1)}; DELETE FROM entry WHERE round_id = ${roundId(1)}; DELETE FROM showing WHERE round_id = ${roundId(1)}; DELETE FROM round_cell WHERE round_id = ${roundId(1)}; DELETE FROM round WHERE position = 1`,
    ),
  ],
  ['an evaluation unsealed', 'evaluation', run("UPDATE evaluation SET phase = 'deciding', sealed_at = NULL")],
  [
    'the answer to a second look changed',
    'look',
    run("UPDATE look_answer SET choice = 'first' WHERE choice = 'second'"),
  ],
  ['an answer to a second look taken away', 'look', run("DELETE FROM look_answer WHERE choice = 'tie'")],
  [
    'an answer to a second look added',
    'look',
    run(
      "INSERT INTO look_answer SELECT 'x', seq + 100, look_id, seat_id, device_id, 'first', criterion, made_at, received_at FROM look_answer WHERE choice = 'second'",
    ),
  ],
  ['the sides of a second look swapped', 'look', run('UPDATE look SET first_on_left = 1 - first_on_left')],
  ['a batch of second looks opened again', 'look', run("UPDATE look_batch SET state = 'open', revealed_at = NULL")],
  [
    'a batch of second looks taken away',
    'look',
    run('DELETE FROM look_answer; DELETE FROM look; DELETE FROM look_batch'),
  ],
  [
    'another puppy picked',
    'decision',
    run(
      "UPDATE decision SET puppy_id = (SELECT id FROM puppy WHERE name = 'Sorrel') WHERE seq = (SELECT max(seq) FROM decision)",
    ),
  ],
  ['the reason of a pick changed', 'decision', run("UPDATE decision SET reason = 'the panel said so' WHERE seq = 1")],
  ['a pick called a preference', 'decision', run('UPDATE decision SET preference = 1')],
  ['a pick that was taken back left out', 'decision', run('DELETE FROM decision WHERE seq < 3')],
  [
    'a decision added',
    'decision',
    run(
      'INSERT INTO decision SELECT \'x\', seq + 1, evaluation_id, slot_id, outcome, puppy_id, "by", reason, preference, followed_panel, at FROM decision WHERE seq = 3',
    ),
  ],
  ['the answer to a hold changed', 'clearance', run("UPDATE clearance SET answer = 'operate'")],
  [
    'what was chosen on an answer to a hold changed',
    'clearance',
    run("UPDATE clearance SET choice = 'cleared' WHERE choice = 'stays'"),
  ],
  [
    'what was chosen on an answer to a hold taken away',
    'clearance',
    run('UPDATE clearance SET choice = NULL, again_on = NULL'),
  ],
  [
    'the day to look again changed',
    'clearance',
    run("UPDATE clearance SET again_on = '2030-01-01' WHERE choice = 'again'"),
  ],
  ['the order of answers to a hold changed', 'clearance', run('UPDATE clearance SET seq = -seq')],
  [
    'an answer to a hold added',
    'clearance',
    run(
      'INSERT INTO clearance SELECT NULL, NULL, evaluation_id, puppy_id, \'gait\', answer, "by", choice, again_on, at FROM clearance',
    ),
  ],
  ['an answer to a hold taken away', 'clearance', run('DELETE FROM clearance')],
  [
    'an addendum changed',
    'addendum',
    run("UPDATE addendum SET text = 'it was the day after' WHERE kind = 'correction'"),
  ],
  [
    'what was chosen in an addendum changed',
    'addendum',
    run("UPDATE addendum SET choice = 'stays' WHERE kind = 'veterinary'"),
  ],
  [
    'how a puppy behaves changed after the seal',
    'addendum',
    run("UPDATE addendum SET text = 'follows nobody' WHERE kind = 'behaviour'"),
  ],
  [
    'an addendum given to another puppy',
    'addendum',
    run("UPDATE addendum SET puppy_id = (SELECT id FROM puppy WHERE name = 'Sorrel') WHERE kind = 'home'"),
  ],
  ['an addendum taken away', 'addendum', run('DELETE FROM addendum WHERE seq = (SELECT max(seq) FROM addendum)')],
  [
    'an addendum added',
    'addendum',
    run(
      'INSERT INTO addendum SELECT NULL, \'x\', evaluation_id, kind, puppy_id, "check", choice, again_on, text, "by", at FROM addendum LIMIT 1',
    ),
  ],
  [
    'a line of how a puppy behaves written into the sealed part',
    'record',
    (client) => append(client, { kind: 'behaviour-noted' }),
  ],
  [
    'what came late changed',
    'late',
    run("UPDATE entry SET body = replace(body, 'before', 'after') WHERE status = 'late'"),
  ],
  [
    'what came late taken away',
    'late',
    run("DELETE FROM entry WHERE status = 'late' AND rowid = (SELECT max(rowid) FROM entry WHERE status = 'late')"),
  ],
  [
    'something made to have come late',
    'late',
    run(
      "INSERT INTO entry SELECT 'x', round_id, seat_id, device_id, subject, field, counter + 1, body, value, status, made_at, received_at FROM entry WHERE status = 'late' LIMIT 1",
    ),
  ],
  ['the sex a place asks for changed', 'terms', run("UPDATE slot SET sex = 'bitch'")],
  ['who takes a place changed', 'terms', run("UPDATE slot SET taker = 'co-owner'")],
  [
    'the plan changed',
    'terms',
    run(`INSERT INTO plan SELECT id, 'panel', NULL, 'anonymous', 0, NULL, 3, 'shown' FROM evaluation`),
  ],
  ['a weight changed', 'terms', run("UPDATE purpose SET weights = replace(weights, ':1', ':3')")],
  ['the frozen sheet changed', 'terms', run("UPDATE evaluation SET frozen_sheet = replace(frozen_sheet, 'a', 'e')")],
  ['a cell of the second round taken out', 'terms', run('DELETE FROM round_cell WHERE rowid = 1')],
  ['the nonce of the terms taken away', 'terms', run('UPDATE round SET terms_nonce = NULL')],
  ['an agreement to the pick order taken away', 'terms', run('DELETE FROM confirmation')],
  ['a withdrawal taken away', 'withdrawal', run('DELETE FROM withdrawal')],
  ['the reason of a withdrawal changed', 'withdrawal', run("UPDATE withdrawal SET reason = 'ill'")],
  ['a seat given the right to pick', 'seat', run("UPDATE seat SET picks = 1 WHERE label = 'mentor'")],
  [
    'a seat added',
    'seat',
    run(
      "INSERT INTO seat (id, evaluation_id, position, label, kind, interest) SELECT 'x', id, 9, 'guest', 'hands', '' FROM evaluation",
    ),
  ],
  ['a reissue hidden', 'seat', run('UPDATE device SET generation = 1')],
  [
    'a session that a reissue ended revived',
    'seat',
    (client) =>
      void client.exec(`UPDATE device SET revoked_at = NULL WHERE seat_id = '${seatNamed(client, 'mentor')}'`),
  ],
  ['a note of the talk changed', 'note', run("UPDATE discussion_note SET text = 'the head decides'")],
  ['a note of the talk taken away', 'note', run('DELETE FROM discussion_note')],
  ['a link of a home taken away', 'home', run('DELETE FROM home_link')],
  [
    'a stored result changed',
    'result',
    run(`UPDATE result SET body = json_set(body, '$.reconciliation.slots[0].chances[0].probability', 0.99)`),
  ],
  ['the results decided upon taken away', 'result', run('DELETE FROM result')],
  ['a snapshot’s label changed', 'snapshot', run("UPDATE snapshot SET body = replace(body, 'co-owner', 'neighbour')")],
  ['a line that reopens the revealed round appended', 'record', (client) => append(client, { kind: 'round-reopened' })],
  ['a line of a kind that is not known appended', 'record', (client) => append(client, { kind: 'scores-corrected' })],
  [
    'a pick appended to the sealed record',
    'record',
    (client) => append(client, { kind: 'decided', detail: 'place 1: Moss' }),
  ],
  ['a line taken out of the record', 'record', run('DELETE FROM record WHERE seq = 12')],
  [
    'an evaluation put in that the record does not know',
    'evaluation',
    run(
      "INSERT INTO evaluation SELECT 'x', litter_id, sheet_id, frozen_sheet, name, held_on, medium, call_link, call_number, table_note, phase, showing_order, NULL, created_at, sealed_at FROM evaluation",
    ),
  ],
];

it('SC3: a day with everything in it is sound as the server left it, and nothing of it is unbound', () => {
  const report = verifyData(sound);
  expect(report).toMatchObject({ faults: [], unbound: 0, untold: 0, snapshots: 2, wordsRemoved: 2, notRecomputed: 0 });
  expect(report.recomputed).toBeGreaterThan(1);
});

it.each(tampers)('SC3: %s: found', (_, what, change) => {
  const file = tampered(change);
  let report: Pick<DataReport, 'faults'>;
  try {
    report = verifyData(file);
  } catch (error) {
    // SQLite's own check of the keys.
    report = { faults: [{ what: 'file', id: '', words: String(error) }] };
  }
  expect(report.faults.map((fault) => fault.what)).toContain(what);
  expect(JSON.stringify(report.faults)).not.toMatch(/score|better mover|the rear|"value"/);
});

it('SC3: a stored result that nobody decided upon, but that a board would show, is computed again', () => {
  const change: Tamper = (client) => {
    const bound =
      client
        .prepare<[], string>("SELECT group_concat(body) FROM record WHERE kind IN ('decided', 'sealed')")
        .pluck()
        .get() ?? '';
    const keys = client
      .prepare<[], string>('SELECT key FROM result')
      .pluck()
      .all()
      .filter((key) => !bound.includes(key));
    expect(keys.length).toBeGreaterThan(0);
    for (const key of keys)
      client
        .prepare(
          "UPDATE result SET body = json_set(body, '$.reconciliation.slots[0].chances[0].probability', 0.99) WHERE key = ?",
        )
        .run(key);
  };
  expect(verifyData(tampered(change)).faults.map((fault) => fault.what)).toContain('result');
});

it('SC3: last bits of a stored number that another Node computes otherwise are no fault', () => {
  const nudge = (value: unknown): unknown => (typeof value === 'number' ? value * (1 + 1e-9) : value);
  const change: Tamper = (client) => {
    const bound =
      client
        .prepare<[], string>("SELECT group_concat(body) FROM record WHERE kind IN ('decided', 'sealed')")
        .pluck()
        .get() ?? '';
    for (const { key, body } of client
      .prepare<[], { key: string; body: string }>('SELECT key, body FROM result')
      .all()
      .filter((row) => !bound.includes(row.key))) {
      client
        .prepare('UPDATE result SET body = ? WHERE key = ?')
        .run(JSON.stringify(JSON.parse(body, (_, value) => nudge(value))), key);
    }
  };
  expect(verifyData(tampered(change)).faults).toEqual([]);
});

it('SC3: results of an engine that is no longer carried are held to the hash in the record and told as not recomputed', () => {
  // As a day decided with an earlier engine left it: other keys, and a record that binds them.
  const rename: Tamper = (client) => {
    const keys = client.prepare<[], string>('SELECT key FROM result').pluck().all();
    for (const key of keys) {
      const body = client.prepare<[string], string>('SELECT body FROM result WHERE key = ?').pluck().get(key) ?? '';
      const older = body.replace(/"engineVersion":"[^"]*"/, '"engineVersion":"1"');
      client.prepare('UPDATE result SET key = ?, body = ? WHERE key = ?').run(sha(`older ${key}`), older, key);
      client
        .prepare("UPDATE record SET body = replace(replace(body, ?, ?), ?, ?) WHERE kind IN ('decided', 'sealed')")
        .run(`question ${key}`, `question ${sha(`older ${key}`)}`, `result ${sha(body)}`, `result ${sha(older)}`);
    }
    chainAnew(client);
  };
  const older = join(folder, 'older.db');
  copyFileSync(tampered(rename), older);
  const report = verifyData(older);
  expect(report).toMatchObject({ faults: [], recomputed: 0 });
  expect(report.notRecomputed).toBeGreaterThan(1);
  expect(
    verifyData(tampered(run("UPDATE result SET body = replace(body, '0.1', '0.2')"), older)).faults.map(
      (fault) => fault.what,
    ),
  ).toContain('result');
});

/** The whole chain of the record made again over lines that were changed. */
function chainAnew(client: Sqlite.Database): void {
  let previousHash = '';
  const lines = client
    .prepare<[], { seq: number; evaluation_id: string | null; at: number; actor: string; kind: string; body: string }>(
      'SELECT * FROM record ORDER BY seq',
    )
    .all();
  for (const [place, { seq, evaluation_id: evaluationId, at, actor, kind, body }] of lines.entries()) {
    const hash = recordHash({ previousHash, seq: place + 1, evaluationId, at, actor, kind, detail: body });
    client
      .prepare('UPDATE record SET seq = ?, previous_hash = ?, hash = ? WHERE seq = ?')
      .run(place + 1, previousHash, hash, seq);
    previousHash = hash;
  }
}

it('SC3: a record written anew to say that it is older than it is, is told as not bound, and a device that saw its head notices', async () => {
  const seen = headOf(sound);
  const file = tampered((client) => {
    changeScore(client);
    client.exec(
      `DELETE FROM record WHERE kind = 'binding-begun'; UPDATE record SET body = '' WHERE kind IN ('round-revealed'); DELETE FROM record WHERE kind LIKE 'committed%'; DELETE FROM commitment`,
    );
    chainAnew(client);
  });
  const report = verifyData(file);
  expect(report.unbound).toBeGreaterThan(5);
  const kept = new Map<string, unknown>();
  const store: KeptStore = {
    get: (key) => Promise.resolve(kept.get(key)),
    set: (key, value) => Promise.resolve(void kept.set(key, value)),
    update: (key, step) => {
      const next = step(kept.get(key));
      kept.set(key, next);
      return Promise.resolve(next);
    },
    remove: (key) => Promise.resolve(void kept.delete(key)),
  };
  const hashAt = (seq: number) =>
    Promise.resolve(
      new Sqlite(file, { readonly: true })
        .prepare<[number], string>('SELECT hash FROM record WHERE seq = ?')
        .pluck()
        .get(seq) ?? null,
    );
  await witnessHead({ evaluationId: id, head: seen, now: 1, hashAt }, store);
  expect(await witnessHead({ evaluationId: id, head: headOf(file), now: 2, hashAt }, store)).toMatchObject(seen);
  const said: string[] = [];
  await verifyCommand([file], { answer: (line) => said.push(line), complain: (line) => said.push(line) });
  expect(said.join('\n')).toMatch(/not bound/);
  expect(said.join('\n')).toMatch(/compare this one with the head that the devices have seen/);
});

function headOf(file: string): { seq: number; hash: string } {
  return (
    new Sqlite(file, { readonly: true })
      .prepare<[], { seq: number; hash: string }>('SELECT seq, hash FROM record ORDER BY seq DESC LIMIT 1')
      .get() ?? { seq: 0, hash: '' }
  );
}

it('SC3: once a server of this version has opened the file, no evaluation in it is called older than its lines say', () => {
  const file = tampered((client) => {
    client.exec(`DELETE FROM record WHERE kind = 'binding-begun'; UPDATE record SET seq = seq + 1000`);
    // Another evaluation, made before by a server of this version.
    const other = 'e'.repeat(32);
    client.exec(
      `INSERT INTO evaluation SELECT '${other}', litter_id, sheet_id, NULL, name, held_on, medium, '', '', '', 'preparing', '[]', NULL, 1, NULL FROM evaluation`,
    );
    client.exec(
      `INSERT INTO record VALUES (1, '${other}', 1, 'owner', 'evaluation-created', 'Another', '', ''), (2, '${other}', 1, 'the server', 'binding-begun', '', '', '')`,
    );
    chainAnew(client);
  });
  expect(verifyData(file).faults).toContainEqual({
    what: 'evaluation',
    id,
    words: 'the record does not say when this evaluation began to be bound',
  });
});

it('SC3: a file of the first version, brought up to date, is sound and told as not bound; what happens from then on is bound', () => {
  const file = join(folder, 'first.db');
  const first = new Sqlite(file);
  fillFirstVersion(first);
  first.close();
  const db = open(file);
  expect(verifyData(file)).toMatchObject({ faults: [], untold: 2 });
  const clock = { now: () => 99 };
  beginBindingOfAll({ db, clock });
  beginBindingOfAll({ db, clock });
  expect(db.$client.prepare("SELECT count(*) FROM record WHERE kind = 'binding-begun'").pluck().get()).toBe(2);
  db.$client.close();
  expect(verifyData(file)).toMatchObject({ faults: [], untold: 2 });
});
