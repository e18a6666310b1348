import type { OutboxRow } from '#lib/evaluation/outboxState';
import { openDeviceDatabase } from './deviceDatabase';

/** Where a device keeps its entries until the server has them and their round is revealed. */
export type OutboxStore = {
  /** Rows of one seat in one evaluation, in the order they were made. */
  load(owner: { readonly evaluationId: string; readonly seatId: string }): Promise<readonly OutboxRow[]>;
  /** All of them or, when it rejects, none. */
  save(rows: readonly OutboxRow[]): Promise<void>;
  remove(ids: readonly string[]): Promise<void>;
  close(): void;
};

/** The outbox on disk: written with strict durability, so that a promise kept is on the disk and not in a buffer. */
export function openOutboxStore(name?: string): OutboxStore {
  const device = openDeviceDatabase(name);
  return {
    load: async ({ evaluationId, seatId }) => {
      const rows = await device.use((db) => db.getAll('outbox'));
      return rows
        .filter((row) => row.evaluationId === evaluationId && row.seatId === seatId)
        .toSorted((a, b) => a.order - b.order || a.entry.counter - b.entry.counter)
        .map(({ id: _id, order: _order, ...row }) => ({ ...row, kept: 'disk' }));
    },
    save: (rows) =>
      device.use(async (db) => {
        const transaction = db.transaction('outbox', 'readwrite', { durability: 'strict' });
        const puts = rows.map((row) => transaction.store.put({ ...row, id: row.entry.id, order: row.entry.madeAt }));
        await Promise.all([...puts, transaction.done]);
      }),
    remove: (ids) =>
      device.use(async (db) => {
        const transaction = db.transaction('outbox', 'readwrite');
        await Promise.all([...ids.map((id) => transaction.store.delete(id)), transaction.done]);
      }),
    close: () => device.close(),
  };
}
