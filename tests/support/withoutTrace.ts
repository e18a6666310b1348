import type { TestServer } from './startTestServer';

/** Runs one call and takes back whatever it wrote, so that the next finds the same evaluation: the server's own transactions nest in this one. */
export async function withoutTrace<T>({ runtime: { db } }: TestServer, call: () => Promise<T>): Promise<T> {
  db.$client.exec('BEGIN');
  try {
    return await call();
  } finally {
    db.$client.exec('ROLLBACK');
  }
}
