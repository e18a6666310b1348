import type { Db } from './open';

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
