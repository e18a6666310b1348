import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Answer } from '#lib/contract/entry';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { SessionView } from '#lib/contract/sessionView';
import type { OutboxRow } from '#lib/evaluation/outboxState';

/** What the seat last read of its own evaluation, so that scoring opens without the server. */
export type KeptRead = {
  readonly id: string;
  /** When it was read, in milliseconds. */
  readonly at: number;
  readonly evaluation: EvaluationView;
  readonly mine: { readonly roundId: string | null; readonly answers: Answer[] } | null;
  readonly me: SessionView | null;
};

interface DeviceSchema extends DBSchema {
  outbox: { key: string; value: OutboxRow & { readonly id: string; readonly order: number } };
  reads: { key: string; value: KeptRead };
}

export type Opened = IDBPDatabase<DeviceSchema>;
export type DeviceDatabase = {
  /** Does the work, and once more on a fresh opening if it failed or did not end in time; then rejects. */
  use<T>(work: (database: Opened) => Promise<T>): Promise<T>;
  close(): void;
};

const patienceMs = 2000;

/**
 * The seat's own data on this device. Browsers close the database under a sleeping page: each piece of work opens it
 * anew where it must and is tried once more before it rejects. A database that does not answer within two seconds
 * counts as failed.
 */
export function openDeviceDatabase(name = 'evenstack'): DeviceDatabase {
  let database: Promise<Opened> | null = null;
  const forget = () => {
    database = null;
  };
  const open = () => {
    database ??= openDB<DeviceSchema>(name, 2, {
      upgrade: (db, before) => {
        if (before < 1) db.createObjectStore('outbox', { keyPath: 'id' });
        if (before < 2) db.createObjectStore('reads', { keyPath: 'id' });
      },
      blocking: (_current, _blocked, event) => {
        if (event.target instanceof IDBDatabase) event.target.close();
        forget();
      },
      terminated: forget,
    });
    return database;
  };
  return {
    use: async (work) => {
      try {
        return await inTime(open().then(work));
      } catch {
        forget();
        return await inTime(open().then(work));
      }
    },
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
