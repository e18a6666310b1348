import { chmodSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import {
  backupName,
  type BackupName,
  backupsToKeep,
  inSequence,
  readBackupName,
  roomFor,
} from '#lib/backup/backupsToKeep';

export type Room = { readonly free: number; readonly needed: number };

/** Backups of a folder, oldest first; none where there is no folder. Files of other names are somebody's own and are let be. */
export function listBackups(folder: string): BackupName[] {
  try {
    return inSequence(readdirSync(folder).flatMap((name) => readBackupName(name) ?? []));
  } catch {
    return [];
  }
}

/** Makes the folder for this account alone, and clears away what a copy left that was broken off. */
export function prepareFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  chmodSync(folder, 0o700);
  for (const name of readdirSync(folder)) {
    const [, whole = ''] = /^(.*\.db)\.part(?:-journal|-wal|-shm)?$/.exec(name) ?? [];
    if (readBackupName(whole)) rmSync(join(folder, name), { force: true });
  }
}

/** The name after the newest: the sequence goes on whatever the clock says. */
export function nextName(folder: string, at: number): string {
  return backupName((listBackups(folder).at(-1)?.sequence ?? 0) + 1, at);
}

/** Whether a copy that was said to be made is there; an empty one is none, and goes. */
export function keepWhole(path: string): boolean {
  if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0) return true;
  rmSync(path, { force: true });
  return false;
}

/** Gives up older backups where that makes room for one more; answers how many, or null when there is no room to be made. */
export function makeRoom(folder: string, room: Room): number | null {
  const backups = listBackups(folder).map((one) => ({
    ...one,
    bytes: statSync(join(folder, one.name), { throwIfNoEntry: false })?.size ?? 0,
  }));
  const givenUp = roomFor({ backups, ...room });
  for (const name of givenUp ?? []) rmSync(join(folder, name));
  return givenUp && givenUp.length;
}

/** Removes what need not be kept any longer; throws when a file cannot be removed. */
export function prune(folder: string): void {
  const backups = listBackups(folder);
  const kept = new Set(backupsToKeep(backups).map(({ name }) => name));
  for (const { name } of backups) if (!kept.has(name)) rmSync(join(folder, name));
}
