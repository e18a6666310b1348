import { inSequence, type BackupName } from './backupName';

/** How many of the newest are kept, and of how many hours, days and months with backups the last one. */
export type Keeping = { readonly newest: number; readonly hours: number; readonly days: number; readonly months: number };

/** A day on which a hundred cards are locked pushes out nothing but its own backups. */
export const usualKeeping: Keeping = { newest: 24, hours: 48, days: 31, months: 12 };
/** What stays when room is short: less would be no history. */
export const leastKeeping: Keeping = { newest: 2, hours: 0, days: 7, months: 3 };

/**
 * Which backups are kept, in sequence. Only the sequence says what is newer; a time puts a backup into its hour, day and month,
 * and of each of the last of those that have backups the newest is kept. A clock that was ahead, or jumps, can therefore not
 * make a newer backup look old. Keeping again what was kept drops nothing, so it does not matter how often this is asked.
 */
export function backupsToKeep(backups: readonly BackupName[], keeping: Keeping = usualKeeping): BackupName[] {
  const newestFirst = inSequence(backups).toReversed();
  const kept = new Set(newestFirst.slice(0, Math.max(1, keeping.newest)));
  for (const [length, many] of [[13, keeping.hours], [10, keeping.days], [7, keeping.months]] as const) {
    for (const one of newestOfEach(newestFirst, length).slice(0, many)) kept.add(one);
  }
  return newestFirst.filter((one) => kept.has(one)).toReversed();
}

/** The first of each period, which is the newest; a period is the beginning of the time as it is written. */
function newestOfEach(newestFirst: readonly BackupName[], length: number): BackupName[] {
  const found = new Map<string, BackupName>();
  for (const one of newestFirst) {
    const period = new Date(one.at).toISOString().slice(0, length);
    if (!found.has(period)) found.set(period, one);
  }
  return [...found.values()];
}

type Room = { readonly backups: readonly (BackupName & { readonly bytes: number })[]; readonly free: number; readonly needed: number };

/**
 * Which older backups to give up so that a further one fits, oldest first; none when there is room. Null when giving up all
 * that may be given up would not make room: then nothing is given up, and the newest never is.
 */
export function roomFor({ backups, free, needed }: Room): string[] | null {
  const least = new Set(backupsToKeep(backups, leastKeeping).map(({ name }) => name));
  const bytes = new Map(backups.map((one) => [one.name, one.bytes]));
  const givenUp: string[] = [];
  let room = free;
  for (const { name } of inSequence(backups)) {
    if (room >= needed) break;
    if (least.has(name)) continue;
    givenUp.push(name);
    room += bytes.get(name) ?? 0;
  }
  return room >= needed ? givenUp : null;
}
