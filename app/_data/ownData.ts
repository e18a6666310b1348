import { openDeviceDatabase, type DeviceDatabase } from './deviceDatabase';

/** How many entries are on this device and not on the server, whoever made them: leaving would lose them. */
export function countUnsent(): Promise<number> {
  return withDatabase((device) => device.use(async (db) => (await db.getAll('outbox')).filter((row) => row.status === 'waiting').length));
}

/** Forgets what the seat had read: another seat may sit down at this browser. Entries not yet sent stay. */
export function forgetReads(): Promise<void> {
  return withDatabase((device) => device.use((db) => db.clear('reads')));
}

/** Signing out: nothing of the seat stays on this device. */
export function forgetOwnData(): Promise<void> {
  return withDatabase((device) =>
    device.use(async (db) => {
      const transaction = db.transaction(['outbox', 'reads'], 'readwrite', { durability: 'strict' });
      await Promise.all([transaction.objectStore('outbox').clear(), transaction.objectStore('reads').clear(), transaction.done]);
    }),
  );
}

async function withDatabase<T>(work: (device: DeviceDatabase) => Promise<T>): Promise<T> {
  const device = openDeviceDatabase();
  try {
    return await work(device);
  } finally {
    device.close();
  }
}
