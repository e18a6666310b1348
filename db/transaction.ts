import type { Db } from './open';
import { settleFault } from './storageFault';

/** The same handle inside a transaction: better-sqlite3 has one connection, so reads and writes through `db` take part. */
type Synchronous<T> = T extends PromiseLike<unknown> ? never : T;

/**
 * Runs `work` in one BEGIN IMMEDIATE transaction and returns its result; a throw rolls everything back.
 * Asynchronous work does not compile: SQLite's transaction would be over before it began.
 */
export function inTransaction<T>(db: Db, work: () => Synchronous<T>): T {
  try {
    return db.$client.transaction(work).immediate();
  } catch (error) {
    settleFault(db, error);
    throw error;
  }
}

/**
 * A query that every score asks for, built and prepared once for each open data file: building it costs several times
 * what running it does. What differs from call to call goes in by `sql.placeholder`.
 */
export function prepareOnce<Query>(build: (db: Db) => Query): (db: Db) => Query {
  const prepared = new WeakMap<Db, Query>();
  return (db) => {
    const query = prepared.get(db) ?? build(db);
    prepared.set(db, query);
    return query;
  };
}
