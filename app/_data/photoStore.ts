import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { ShotKey } from '#lib/photo/shot';
import { refusedOnWay } from './photoAnswer';

/** A picture or clip on this device that the server does not have yet. */
export type WaitingPhoto = {
  /** Made of its content and its evaluation: the same file dropped twice is one. */
  readonly id: string;
  readonly evaluationId: string;
  /** The seat that brought it, or `owner`: another seat of this browser neither sees nor sends it. */
  readonly seat: string;
  readonly puppyId: string;
  readonly view: ShotKey;
  readonly takenAt: number;
  readonly fair: boolean;
  readonly name: string;
  readonly bytes: ArrayBuffer;
  readonly type: string;
  readonly addedAt: number;
  /** A refusal's code, once the server has refused it for good, or somebody on the way again and again; null while it waits. */
  readonly code: string | null;
};

interface PhotoSchema extends DBSchema {
  waiting: { key: string; value: WaitingPhoto };
}

export type PhotoStore = {
  load(owner: Pick<WaitingPhoto, 'evaluationId' | 'seat'>): Promise<readonly WaitingPhoto[]>;
  save(photo: WaitingPhoto): Promise<void>;
  remove(id: string): Promise<void>;
  /** How many the server neither has nor has refused, whoever brought them. */
  count(): Promise<number>;
  clear(): Promise<void>;
  close(): void;
};

const patienceMs = 8000;

/**
 * Pictures on the device's disk until the server has them: a database of their own, for they are large and the scores must
 * not wait for them. Browsers close it under a sleeping page: each piece of work is tried once more on a fresh opening.
 */
export function openPhotoStore(name = 'evenstack-pictures'): PhotoStore {
  let database: Promise<IDBPDatabase<PhotoSchema>> | null = null;
  const forget = () => {
    database = null;
  };
  const open = () => {
    database ??= openDB<PhotoSchema>(name, 1, {
      upgrade: (db) => void db.createObjectStore('waiting', { keyPath: 'id' }),
      terminated: forget,
    });
    return database;
  };
  const attempt = async <T>(work: (db: IDBPDatabase<PhotoSchema>) => Promise<T>): Promise<T> => {
    try {
      return await inTime(open().then(work));
    } catch {
      forget();
      return await inTime(open().then(work));
    }
  };
  return {
    load: async ({ evaluationId, seat }) => {
      const rows = await attempt((db) => db.getAll('waiting'));
      return rows
        .filter((row) => row.evaluationId === evaluationId && row.seat === seat)
        .toSorted((a, b) => a.addedAt - b.addedAt || a.takenAt - b.takenAt);
    },
    save: (photo) =>
      attempt(async (db) => {
        const transaction = db.transaction('waiting', 'readwrite', { durability: 'strict' });
        await Promise.all([transaction.store.put(photo), transaction.done]);
      }),
    remove: (id) => attempt((db) => db.delete('waiting', id)),
    count: async () =>
      (await attempt((db) => db.getAll('waiting'))).filter(
        (photo) => photo.code === null || refusedOnWay.has(photo.code),
      ).length,
    clear: () => attempt((db) => db.clear('waiting')),
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
