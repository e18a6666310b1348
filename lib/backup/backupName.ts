/** A backup by its name: the sequence orders, the time is only what the clock said then. */
export type BackupName = { readonly name: string; readonly sequence: number; readonly at: number };

const latest = Date.UTC(9999, 11, 31, 23, 59, 59, 999);

/** `evenstack-00000042-2026-09-12T09-15-00-000Z.db`; a clock beyond the years of four digits is taken at their end. */
export function backupName(sequence: number, at: number): string {
  return `evenstack-${String(sequence).padStart(8, '0')}-${new Date(Math.min(Math.max(at, 0), latest)).toISOString().replace(/[:.]/g, '-')}.db`;
}

/** Reads the name of a backup; null for every other name. Names of an earlier version have no sequence (0): they are older than all that have one. */
export function readBackupName(name: string): BackupName | null {
  const [, sequence = '0', date, hour, minute, second, thousandth] = /^evenstack-(?:(\d{8,15})-)?(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z\.db$/.exec(name) ?? [];
  const at = Date.parse(`${date}T${hour}:${minute}:${second}.${thousandth}Z`);
  return Number.isNaN(at) ? null : { name, sequence: Number(sequence), at };
}

/** Oldest first. Without a sequence only the time is left to order by. */
export function inSequence(backups: readonly BackupName[]): BackupName[] {
  return backups.toSorted((one, other) => one.sequence - other.sequence || one.at - other.at || (one.name < other.name ? -1 : 1));
}
