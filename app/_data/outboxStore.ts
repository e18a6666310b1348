import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { OutboxRow } from '#lib/evaluation/outboxState';

interface OutboxSchema extends DBSchema {
  outbox: { key: string; value: OutboxRow & { readonly id: string; readonly order: number } };
}

/** Where a device keeps its entries until the server has them. */
export type OutboxStore = {
  /** Rows of one seat in one evaluation, in the order they were made. */
  load(owner: { readonly evaluationId: string; readonly seatId: string }): Promise<readonly OutboxRow[]>;
  save(row: OutboxRow): Promise<void>;
  remove(id: string): Promise<void>;
  close(): void;
};

const storeName = 'outbox';
const patienceMs = 2000;

/**
 * The outbox on disk: written with strict durability, so that a promise kept is on the disk and not in a buffer. Browsers
 * close the database under a sleeping page: each operation opens it anew and tries once more before it rejects. A
 * database that does not answer within two seconds counts as failed.
 */
export function openOutboxStore(name = 'evenstack'): OutboxStore {
  let database: Promise<IDBPDatabase<OutboxSchema>> | null = null;

  const forget = () => {
    database = null;
  };
  const open = () => {
    database ??= openDB<OutboxSchema>(name, 1, {
      upgrade: (db) => void db.createObjectStore(storeName, { keyPath: 'id' }),
      blocking: (_current, _blocked, event) => {
        if (event.target instanceof IDBDatabase) event.target.close();
        forget();
      },
      terminated: forget,
    });
    return database;
  };
  const attempt = async <T>(work: (db: IDBPDatabase<OutboxSchema>) => Promise<T>): Promise<T> => {
    try {
      return await inTime(open().then(work));
    } catch {
      forget();
      return await inTime(open().then(work));
    }
  };

  return {
    load: async ({ evaluationId, seatId }) => {
      const rows = await attempt((db) => db.getAll(storeName));
      return rows
        .filter((row) => row.evaluationId === evaluationId && row.seatId === seatId)
        .toSorted((a, b) => a.order - b.order || a.entry.counter - b.entry.counter)
        .map(({ id: _id, order: _order, ...row }) => ({ ...row, kept: 'disk' }));
    },
    save: (row) =>
      attempt(async (db) => {
        const transaction = db.transaction(storeName, 'readwrite', { durability: 'strict' });
        const kept = { ...row, id: row.entry.id, order: row.entry.madeAt };
        await Promise.all([transaction.store.put(kept), transaction.done]);
      }),
    remove: (id) => attempt((db) => db.delete(storeName, id)),
    close: () => {
      void database?.then((db) => db.close()).catch(forget);
      forget();
    },
  };
}

function inTime<T>(work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('the database on this device does not answer')), patienceMs);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
