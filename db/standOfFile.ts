import Sqlite from 'better-sqlite3';
import { migrationStand, type MigrationStand } from './migrationStand';

/** Where a file on the disk stands among our migrations, without changing it. Throws when it cannot be read as a data file at all. */
export function standOfFile(file: string): MigrationStand {
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    return migrationStand(client);
  } finally {
    client.close();
  }
}
