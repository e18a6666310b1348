import type { OutboxRow, OutboxState } from '#lib/evaluation/outboxState';
import type { OutboxStore } from './outboxStore';
import { inTime, type After } from './timers';

type DiskSetting = {
  readonly store: OutboxStore;
  readonly after: After;
  /** All rows as they are now. */
  readonly present: () => Pick<OutboxState, 'rows' | 'held'>;
  /** The device has written these, or could not. */
  readonly onSettled: (ids: readonly string[], kept: 'disk' | 'memory') => void;
};

/** Longer than the device's database takes to give up by itself, and no row waits for ever on a store that does not answer. */
const patienceMs = 6000;

/**
 * Makes the device's disk follow the outbox: what changed is written as it is when its turn comes, one write at a time, so
 * that no older state of a row can land on a newer one.
 */
export class OutboxDisk {
  private readonly setting: DiskSetting;
  private readonly due = new Set<string>();
  /** Could not be written; tried again when the outbox next wakes. */
  private readonly failed = new Set<string>();
  private writing: Promise<void> | null = null;
  private closed = false;

  constructor(setting: DiskSetting) {
    this.setting = setting;
  }

  /** True while the disk lacks something that it was told. */
  get behind(): boolean {
    return this.failed.size > 0 || this.due.size > 0;
  }

  /** The seat has signed out: nothing is written any more. */
  close(): void {
    this.closed = true;
  }

  /** Notes what differs between two states; `gone` hears of rows that are no more. */
  follow(before: OutboxState, now: OutboxState, gone: (id: string) => void): void {
    if (before.rows === now.rows && before.held === now.held) return;
    const rows = new Map(rowsOf(now).map((row) => [row.entry.id, row]));
    for (const row of rowsOf(before)) {
      const next = rows.get(row.entry.id);
      rows.delete(row.entry.id);
      if (next === undefined) gone(row.entry.id);
      if (next === undefined || !sameOnDisk(row, next)) this.due.add(row.entry.id);
    }
    for (const id of rows.keys()) this.due.add(id);
  }

  /** Writes what is due; resolves when all of it has been tried. */
  write(): Promise<void> {
    if (this.writing === null && this.due.size > 0) this.writing = this.writeAll();
    return this.writing ?? Promise.resolve();
  }

  /** As `write`, with what could not be written before. */
  retry(): Promise<void> {
    for (const id of this.failed) this.due.add(id);
    this.failed.clear();
    return this.write();
  }

  private async writeAll(): Promise<void> {
    while (this.due.size > 0) {
      const ids = [...this.due];
      this.due.clear();
      const kept = await this.put(ids);
      if (kept === 'memory' && !this.closed) for (const id of ids) this.failed.add(id);
      if (kept === 'disk') for (const id of ids) this.failed.delete(id);
      this.setting.onSettled(ids, kept);
    }
    this.writing = null;
  }

  private async put(ids: readonly string[]): Promise<'disk' | 'memory'> {
    if (this.closed) return 'memory';
    const { store, after, present } = this.setting;
    const rows = new Map(rowsOf(present()).map((row) => [row.entry.id, row]));
    const there = ids.flatMap((id) => rows.get(id) ?? []);
    const gone = ids.filter((id) => !rows.has(id));
    const patience = { milliseconds: patienceMs, after, words: 'the device does not answer' };
    try {
      if (there.length > 0) await inTime(store.save(there), patience);
      if (gone.length > 0) await inTime(store.remove(gone), patience);
      return 'disk';
    } catch {
      return 'memory';
    }
  }
}

function rowsOf({ rows, held }: Pick<OutboxState, 'rows' | 'held'>): readonly OutboxRow[] {
  return [...rows, ...held];
}

/** Where a row is kept is known by its being there. */
function sameOnDisk(one: OutboxRow, other: OutboxRow): boolean {
  return (
    one === other ||
    (one.status === other.status && one.code === other.code && one.shown === other.shown && one.again === other.again)
  );
}
