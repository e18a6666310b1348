import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Answer } from '#lib/contract/entry';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { SessionView } from '#lib/contract/sessionView';
import type { OutboxRow } from '#lib/evaluation/outboxState';
import { after, inTime } from './timers';

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

type Opened = IDBPDatabase<DeviceSchema>;
export type DeviceDatabase = {
  /** Does the work, and once more on a fresh opening if it failed or did not end in time and nobody closed meanwhile; then rejects. */
  use<T>(work: (database: Opened) => Promise<T>): Promise<T>;
  close(): void;
};

const patience = { milliseconds: 2000, after, words: 'the database on this device does not answer' };

/**
 * The seat's own data on this device. Browsers close the database under a sleeping page: each piece of work opens it
 * anew where it must and is tried once more before it rejects. A database that does not answer within two seconds
 * counts as failed; work that had not begun by then never does, or it could undo what was done since.
 */
export function openDeviceDatabase(name = 'evenstack'): DeviceDatabase {
  let database: Promise<Opened> | null = null;
  let closings = 0;
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
  const attempt = async <T>(work: (db: Opened) => Promise<T>): Promise<T> => {
    let wanted = true;
    const begun = open().then((db) => (wanted ? work(db) : Promise.reject(new Error('given up'))));
    try {
      return await inTime(begun, patience);
    } finally {
      wanted = false;
    }
  };
  return {
    use: async (work) => {
      const closedBefore = closings;
      try {
        return await attempt(work);
      } catch (error) {
        if (closings > closedBefore) throw error;
        forget();
        return await attempt(work);
      }
    },
    close: () => {
      closings += 1;
      void database?.then((db) => db.close()).catch(forget);
      forget();
    },
  };
}
