/** How many of the newest are kept, and of how many hours, days and months with backups the last one. */
type Keeping = { readonly newest: number; readonly hours: number; readonly days: number; readonly months: number };

/** A day on which a hundred cards are locked pushes out nothing but its own backups. */
export const usualKeeping: Keeping = { newest: 24, hours: 48, days: 31, months: 12 };
/** What stays when room is short: less would be no history. */
export const leastKeeping: Keeping = { newest: 2, hours: 0, days: 7, months: 3 };

/** Bytes of the disk left free for scores, which are worth more than one backup more. */
export const reserve = 128 * 1_048_576;

/**
 * Which backups are kept, in sequence. Only the sequence says what is newer; a time puts a backup into its hour, day and month,
 * and of each of the last of those that have backups the newest is kept. A clock that was ahead, or jumps, can therefore not
 * make a newer backup look old. Keeping again what was kept drops nothing, so it does not matter how often this is asked.
 */
export function backupsToKeep(backups: readonly BackupName[], keeping: Keeping = usualKeeping): BackupName[] {
  const newestFirst = inSequence(backups).toReversed();
  const kept = new Set(newestFirst.slice(0, Math.max(1, keeping.newest)));
  for (const [length, many] of [
    [13, keeping.hours],
    [10, keeping.days],
    [7, keeping.months],
  ] as const) {
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

type Room = {
  readonly backups: readonly (BackupName & { readonly bytes: number })[];
  readonly free: number;
  readonly needed: number;
};

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

/** A backup by its name: the sequence orders, the time is only what the clock said then. */
export type BackupName = { readonly name: string; readonly sequence: number; readonly at: number };

const latest = Date.UTC(9999, 11, 31, 23, 59, 59, 999);

/** `evenstack-00000042-2026-09-12T09-15-00-000Z.db`; a clock beyond the years of four digits is taken at their end. */
export function backupName(sequence: number, at: number): string {
  return `evenstack-${String(sequence).padStart(8, '0')}-${new Date(Math.min(Math.max(at, 0), latest)).toISOString().replace(/[:.]/g, '-')}.db`;
}

/** Reads the name of a backup; null for every other name. Names of an earlier version have no sequence (0): they are older than all that have one. */
export function readBackupName(name: string): BackupName | null {
  const [, sequence = '0', date, hour, minute, second, thousandth] =
    /^evenstack-(?:(\d{8,15})-)?(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z\.db$/.exec(name) ?? [];
  const at = Date.parse(`${date}T${hour}:${minute}:${second}.${thousandth}Z`);
  return Number.isNaN(at) ? null : { name, sequence: Number(sequence), at };
}

/** Oldest first. Without a sequence only the time is left to order by. */
export function inSequence(backups: readonly BackupName[]): BackupName[] {
  return backups.toSorted(
    (one, other) => one.sequence - other.sequence || one.at - other.at || (one.name < other.name ? -1 : 1),
  );
}
