import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp } from '#db/backUp';
import { checkFile } from '#db/checkFile';
import { holdData } from '#db/holdData';
import { open } from '#db/open';
import { findRecordFault, listRecord, listRestores } from '#db/queries/record';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { getVersion } from '#db/queries/versions';
import { getSnapshot } from '#db/queries/results';
import { blindTo } from '#lib/blind/blindTo';
import { restoreData, RestoreRefused } from '#server/backup/restoreData';
import { cardsHash } from '#server/write/commitCards';
import { restoreCommand } from '#server/cli/restore';
import { closeRound } from '#server/commands/rounds';
import { lockSeat, submitEntries } from '#server/commands/cards';
import { revealRound } from '#server/reveal/revealRound';
import type { Runtime } from '#server/runtime';
import { askerOf, dayRuntime, makeDay, type Day } from '#tests/support/makeDay';

const at = Date.UTC(2026, 8, 12, 20);
let folder = '';
let file = '';
let backup = '';
let day: Day;
let runtime: Runtime;

/** A day with its round open, backed up; the server is then still at work. */
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-restore-'));
  file = join(folder, 'evenstack.db');
  backup = join(folder, 'evenstack-backup.db');
  runtime = dayRuntime(open(file));
  day = makeDay(runtime, { seats: 1, devicesPerSeat: 1 });
  await backUp(file, backup);
});

afterEach(() => {
  runtime.db.$client.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The owner's card is locked, her round closed and revealed. */
function reveal(): void {
  const { id: deviceId, seatId } = day.devices[0] ?? { id: '', seatId: '' };
  const nonce = '0'.repeat(32);
  const roundId = day.facts.round?.id ?? '';
  lockSeat(askerOf(runtime, day, { id: deviceId, seatId }), {
    evaluationId: day.facts.id,
    promised: { nonce, commitment: cardsHash(nonce, { roundId, seatId, answers: [] }) },
  });
  closeRound(runtime, day.facts.id);
  revealRound(runtime, day.facts.id);
}

const restore = () => {
  runtime.db.$client.close();
  return restoreData({ backup, file, at });
};

const refusal = async (work: Promise<unknown>): Promise<string> => {
  const error: unknown = await work.catch((fault: unknown) => fault);
  if (!(error instanceof RestoreRefused)) throw new Error(`not refused: ${String(error)}`);
  return error.message;
};

/** What is in the restored file. */
function look<T>(at: (db: ReturnType<typeof open>) => T): T {
  const db = open(file);
  try {
    return at(db);
  } finally {
    db.$client.close();
  }
}

it('BL7: a backup from before the reveal is refused, naming the round, and nothing changes', async () => {
  reveal();
  runtime.db.$client.close();
  const before = readFileSync(file);
  expect(await refusal(restore())).toBe(
    'Restoring would open again what has been revealed: round 1 of “Eight weeks”. A reveal is for good. Choose a later backup.',
  );
  expect(readFileSync(file).equals(before)).toBe(true);
  expect(readdirSync(folder).filter((name) => /restoring|replaced/.test(name))).toEqual([]);
});

it('BL7: a backup from after the reveal is taken, and its round stays revealed', async () => {
  reveal();
  await backUp(file, backup);
  expect(await restore()).toMatchObject({ current: 'related', closed: { rounds: [], looks: [] } });
  expect(look((db) => getEvaluationFacts(db, day.facts.id).round?.state)).toBe('revealed');
});

it.each([
  ['missing', () => rmSync(file)],
  ['unreadable', () => truncateSync(file, 1000)],
  ['unreadable', () => writeFileSync(file, 'damaged beyond reading')],
  ['unrelated', () => (rmSync(file), open(file).$client.close())],
] as const)(
  'BL7: where the file it replaces is %s, open rounds come back closed, and the record says why',
  async (current, spoil) => {
    reveal();
    runtime.db.$client.close();
    for (const part of ['-wal', '-shm']) rmSync(`${file}${part}`, { force: true });
    spoil();
    const report = await restoreData({ backup, file, at });
    expect(report).toMatchObject({ current, closed: { rounds: ['the first round of “Eight weeks”'], looks: [] } });
    expect(report.keptAs === null).toBe(current === 'missing');
    expect(look((db) => getEvaluationFacts(db, day.facts.id).round?.state)).toBe('closed');
    const lines = look((db) => listRecord(db, day.facts.id)).map(({ kind, detail }) => `${kind}: ${detail}`);
    expect(lines.find((line) => line.startsWith('restored'))).toMatch(
      /without the file it replaces|no later state of it/,
    );
    expect(lines).toContain('round-closed: restored without the file it replaces');
    expect(look(findRecordFault)).toBeNull();
  },
);

it('BL7, SC3: what came after the backup is gone from the data, kept beside, recorded, and no device takes its own for current', async () => {
  const versionBefore = getVersion(runtime.db, day.facts.id, 'all');
  const { id: deviceId, seatId } = day.devices[1] ?? { id: '', seatId: '' };
  const criterion = day.facts.sheet.criteria.find((one) => !one.twoSided)?.key ?? '';
  const subject = day.facts.round?.showings[0]?.id ?? '';
  const entry = {
    id: 'e'.repeat(32),
    subject,
    counter: 1,
    madeAt: 1,
    body: { kind: 'score', criterion, cannotJudge: false, value: 5 },
  } as const;
  expect(
    submitEntries(askerOf(runtime, day, { id: deviceId, seatId }), { evaluationId: day.facts.id, entries: [entry] }),
  ).toMatchObject([{ status: 'applied' }]);
  const { keptAs, current } = await restore();
  expect(current).toBe('related');
  expect(checkFile(file, 'full').rows.get('entry')).toBe(0);
  expect(checkFile(keptAs ?? '', 'full').rows.get('entry')).toBe(1);
  expect(look((db) => getEvaluationFacts(db, day.facts.id).round?.state)).toBe('open');
  expect(look((db) => listRestores(db, day.facts.id))).toEqual([at]);
  expect(look(findRecordFault)).toBeNull();
  expect(look((db) => getVersion(db, day.facts.id, 'all'))).toBeGreaterThan(versionBefore + 100_000);
});

it('SC3: a backup is refused while a server holds the data, and the hold ends with its process or its release', async () => {
  const hold = holdData(file, 0);
  expect(await refusal(restoreData({ backup, file, at }))).toBe('A server has this data folder open. Stop it first.');
  expect(holdData(file, 0)).toBeNull();
  hold?.release();
  expect((await restore()).current).toBe('related');
});

it.each([
  ['cut short', () => truncateSync(backup, 20_000), /cannot be used/],
  ['not a data file', () => writeFileSync(backup, 'nothing of ours'), /cannot be used/],
  [
    'another program’s',
    () => (rmSync(backup), new Sqlite(backup).exec('CREATE TABLE other (a)').close()),
    /not a data file of Evenstack/,
  ],
  [
    'of a later version',
    () => alter('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (1, 99999999999999)'),
    /later version/,
  ],
  [
    'changed in its record',
    () => alter("DROP TRIGGER record_no_update; UPDATE record SET actor = 'somebody else' WHERE seq = 2"),
    /broken at line 2/,
  ],
  [
    'with a dangling key',
    () => alter("PRAGMA foreign_keys = OFF; UPDATE puppy SET litter_id = 'nobody'"),
    /refer to rows that are not there/,
  ],
] as const)('SC3: a backup that is %s is refused and the data stay as they are', async (_, spoil, words) => {
  spoil();
  const facts = checkFile(file, 'full');
  expect(await refusal(restore())).toMatch(words);
  expect(checkFile(file, 'full')).toEqual(facts);
  expect(readdirSync(folder).filter((name) => name.includes('restoring'))).toEqual([]);
});

function alter(sql: string): void {
  const client = new Sqlite(backup);
  client.exec(sql);
  client.close();
}

it('SC3: the data file itself, and a file that is not there, are refused', async () => {
  expect(await refusal(restoreData({ backup: file, file, at }))).toMatch(/data file itself/);
  expect(await refusal(restoreData({ backup: join(folder, 'none.db'), file, at }))).toMatch(/There is no file/);
});

it('SC3: a copy taken of a file in use, with its log beside it, restores what the log held', async () => {
  const copy = join(folder, 'by-hand.db');
  for (const part of ['', '-wal']) copyFileSync(`${file}${part}`, `${copy}${part}`);
  runtime.db.$client.close();
  await restoreData({ backup: copy, file, at });
  expect(checkFile(file, 'full').rows.get('puppy')).toBe(3);
});

it('SC3: the command answers with what it did, or with one sentence and 1, or with its usage and 2', async () => {
  const said: string[] = [];
  const output = { answer: (line: string) => said.push(line), complain: (line: string) => said.push(line) };
  const before = process.env.EVENSTACK_DATA;
  process.env.EVENSTACK_DATA = folder;
  try {
    expect(await restoreCommand([], output)).toBe(2);
    expect(await restoreCommand([join(folder, 'none.db')], output)).toBe(1);
    runtime.db.$client.close();
    expect(await restoreCommand([backup], output)).toBe(0);
  } finally {
    if (before === undefined) delete process.env.EVENSTACK_DATA;
    else process.env.EVENSTACK_DATA = before;
  }
  expect(said[0]).toMatch(/^Usage: npm run restore/);
  expect(said[1]).toMatch(/There is no file .* Nothing was changed\.$/);
  expect(said[2]).toBe('The backup is in place, and the record says so.');
  expect(existsSync(file)).toBe(true);
});

it('BL5, BL7: a result says that its data came from a backup, and on which side of the reveal', () => {
  reveal();
  const snapshot = getSnapshot(runtime.db, day.facts.round?.id ?? '').body;
  const lines = (restores: number[]) =>
    blindTo(snapshot, { anonymous: false, second: null, restores }).filter((line) => line.startsWith('Restored'));
  expect(lines([])).toEqual([]);
  expect(lines([Date.UTC(2026, 0, 1, 8, 30), Date.UTC(2027, 0, 1)])).toEqual([
    'Restored from a backup on 2026-01-01 08:30 UTC, before the reveal: what was entered between that backup and then is missing here.',
    'Restored from a backup on 2027-01-01 00:00 UTC, after the reveal: what was entered between that backup and then is missing here.',
  ]);
});
