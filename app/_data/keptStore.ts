import { openDB } from 'idb';

const databaseName = 'evenstack-kept';
const storeName = 'kept';

/** Small things this device keeps to hold the server to: by key, replaced as a whole. Rejects where the browser keeps nothing. */
export type KeptStore = {
  get(key: string): Promise<unknown>;
  set(key: string, value: unknown): Promise<void>;
  /** Replaces what is kept by what `step` makes of it, undefined where nothing is; nothing comes between. Answers what is kept now. */
  update<T>(key: string, step: (present: unknown) => T): Promise<T>;
  remove(key: string): Promise<void>;
};

/** Opened anew for every operation, because browsers close databases under a sleeping page. */
export const keptStore: KeptStore = {
  get: (key) => withDatabase((db) => db.get(storeName, key) as Promise<unknown>),
  set: (key, value) => withDatabase((db) => db.put(storeName, value, key).then(() => undefined)),
  update: (key, step) =>
    withDatabase(async (db) => {
      const transaction = db.transaction(storeName, 'readwrite');
      const next = step(await transaction.store.get(key));
      await Promise.all([transaction.store.put(next, key), transaction.done]);
      return next;
    }),
  remove: (key) => withDatabase((db) => db.delete(storeName, key)),
};

/** Forgets everything: the person signs out of this browser. */
export function clearKept(): Promise<void> {
  return withDatabase((db) => db.clear(storeName));
}

type Database = Awaited<ReturnType<typeof openDB>>;

async function withDatabase<T>(work: (db: Database) => Promise<T>): Promise<T> {
  const db = await openDB(databaseName, 1, { upgrade: (fresh) => void fresh.createObjectStore(storeName) });
  try {
    return await work(db);
  } finally {
    db.close();
  }
}
