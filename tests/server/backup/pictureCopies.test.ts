import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp } from '#db/backUp';
import { type Db, open } from '#db/open';
import { bringBackPictures, keepPictures } from '#db/pictureCopies';
import { insertPhoto, updatePhoto } from '#db/queries/photos';
import { reserve } from '#lib/backup/backupsToKeep';
import { copyInThread } from '#server/backup/copyInThread';
import { restoreData } from '#server/backup/restoreData';
import { dayRuntime, makeDay, type Day } from '#tests/support/makeDay';

const worker = new URL('../../support/tsBackUpWorker.mjs', import.meta.url);
let folder = '';
let file = '';
let backup = '';
let pictures = '';
let copies = '';
let db: Db;
let day: Day;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-pictures-'));
  [file, pictures, copies] = [
    join(folder, 'evenstack.db'),
    join(folder, 'pictures'),
    join(folder, 'backups', 'pictures'),
  ];
  backup = join(folder, 'backups', 'evenstack-00000001-2026-09-12T09-00-00-000Z.db');
  mkdirSync(copies, { recursive: true });
  mkdirSync(pictures);
  db = open(file);
  day = makeDay(dayRuntime(db), { seats: 1 });
  for (const [id, name] of [
    ['a', 'first.jpg'],
    ['b', 'second.jpg'],
  ] as const)
    bringPicture(id, name);
  await backUp(file, backup);
});

afterEach(() => {
  db.$client.close();
  rmSync(folder, { recursive: true, force: true });
});

function bringPicture(id: string, name: string): void {
  const row = {
    evaluationId: day.facts.id,
    puppyId: day.facts.puppies[0]?.id ?? '',
    view: 'left',
    kind: 'picture',
    takenAt: 1,
    receivedAt: 1,
    seatId: null,
  } as const;
  insertPhoto(db, {
    ...row,
    id: id.repeat(32),
    width: 1,
    height: 1,
    hash: id.repeat(64),
    contentType: 'image/jpeg',
    file: name,
    thumb: `small-${name}`,
    placeholder: '',
    fair: 1,
  });
  for (const one of [name, `small-${name}`]) writeFileSync(join(pictures, one), `what ${one} shows`, { mode: 0o600 });
}

const copiesOf = (name: string) =>
  readdirSync(copies).filter((one) => one.endsWith(`-${name}`) && !one.includes('small'));

it('SC3: pictures that a backup names are copied once each, under the hash of what they held, and brought back whole when they are gone', async () => {
  await copyInThread(worker, { backup, pictures, copies });
  expect(readdirSync(copies).length).toBe(4);
  expect(copiesOf('first.jpg')).toEqual([expect.stringMatching(/^[0-9a-f]{64}-first\.jpg$/)]);
  expect(keepPictures(backup, { pictures, copies })).toEqual({ copied: 0, missing: 0 });
  db.$client.close();
  rmSync(pictures, { recursive: true });
  expect((await restoreData({ backup, file, at: 1 })).pictures).toEqual({ brought: 4, missing: 0, damaged: 0 });
  expect(readFileSync(join(pictures, 'first.jpg'), 'utf8')).toBe('what first.jpg shows');
  expect(statSync(join(pictures, 'first.jpg')).mode & 0o777).toBe(0o600);
});

it('SC3: a restore says what is missing without a copy, and takes no copy that is no longer what it was', async () => {
  keepPictures(backup, { pictures, copies });
  db.$client.close();
  rmSync(pictures, { recursive: true });
  writeFileSync(join(copies, copiesOf('first.jpg')[0] ?? ''), 'rotten');
  rmSync(join(copies, copiesOf('second.jpg')[0] ?? ''));
  expect((await restoreData({ backup, file, at: 1 })).pictures).toEqual({ brought: 2, missing: 1, damaged: 1 });
  expect(existsSync(join(pictures, 'first.jpg'))).toBe(false);
});

it('SC3: a picture that was removed for good loses its copy with the next backup, and no other does', async () => {
  keepPictures(backup, { pictures, copies });
  updatePhoto(db, 'a'.repeat(32), { removedAt: 5 });
  for (const name of ['first.jpg', 'small-first.jpg']) rmSync(join(pictures, name));
  await backUp(file, backup);
  expect(keepPictures(backup, { pictures, copies })).toEqual({ copied: 0, missing: 0 });
  expect(copiesOf('first.jpg')).toEqual([]);
  expect(copiesOf('second.jpg').length).toBe(1);
});

it('SC3: a picture whose file is gone is counted, what a broken-off copy left goes, and a picture that is there is never written over', () => {
  rmSync(join(pictures, 'first.jpg'));
  writeFileSync(join(copies, `${'0'.repeat(64)}-left.part`), 'half');
  expect(keepPictures(backup, { pictures, copies })).toEqual({ copied: 3, missing: 1 });
  expect(readdirSync(copies).filter((name) => name.endsWith('.part'))).toEqual([]);
  rmSync(join(pictures, 'second.jpg'));
  writeFileSync(join(pictures, 'second.jpg'), 'brought anew');
  expect(bringBackPictures(backup, pictures, [copies, join(folder, 'nowhere')])).toEqual({
    brought: 0,
    missing: 1,
    damaged: 0,
  });
  expect(readFileSync(join(pictures, 'second.jpg'), 'utf8')).toBe('brought anew');
});

/** A disk without second names, as where the copies lie on another one. */
const anotherDisk = (free: number) => ({
  free: () => free,
  secondName: () => {
    throw Object.assign(new Error('cross-device link'), { code: 'EXDEV' });
  },
});

it('SC3: copies on another disk are files of their own, of mode 0600, and whole', () => {
  expect(keepPictures(backup, { pictures, copies }, anotherDisk(reserve + 1000))).toEqual({ copied: 4, missing: 0 });
  expect(readdirSync(copies).filter((name) => !/^[0-9a-f]{64}-/.test(name) || name.endsWith('.part'))).toEqual([]);
  const [copy = ''] = copiesOf('first.jpg');
  expect(readFileSync(join(copies, copy), 'utf8')).toBe('what first.jpg shows');
  expect(statSync(join(copies, copy)).mode & 0o777).toBe(0o600);
  expect(statSync(join(copies, copy)).ino).not.toBe(statSync(join(pictures, 'first.jpg')).ino);
});

it('SC3: where copies would take the room that is left for scores none is made and nothing is left behind; on one disk they take none', () => {
  expect(() => keepPictures(backup, { pictures, copies }, anotherDisk(reserve + 10))).toThrow(
    expect.objectContaining({ code: 'ENOSPC' }),
  );
  expect(readdirSync(copies)).toEqual([]);
  expect(keepPictures(backup, { pictures, copies }).copied).toBe(4);
});
