import type { RowStatus } from '#lib/evaluation/outboxState';
import { openDeviceDatabase, type DeviceDatabase } from './deviceDatabase';
import { clearKept } from './keptStore';
import { openPhotoStore } from './photoStore';

export type Unsent = {
  readonly entries: number;
  readonly pictures: number;
  /** On the server, and kept here until the reveal in case it has to be restored from a backup. */
  readonly spare: number;
};

/** What is on this device and not on the server, whoever made it: leaving would lose it. */
export async function countUnsent(): Promise<Unsent> {
  const rows = await withDatabase((device) => device.use((db) => db.getAll('outbox')));
  const count = (status: RowStatus) => rows.filter((row) => row.status === status).length;
  const pictures = openPhotoStore();
  try {
    return { entries: count('waiting'), pictures: await pictures.count(), spare: count('applied') };
  } finally {
    pictures.close();
  }
}

/** Forgets what the seat had read: another seat may sit down at this browser. Entries not yet sent stay. */
export function forgetReads(): Promise<void> {
  return withDatabase((device) => device.use((db) => db.clear('reads')));
}

/** Signing out: nothing of the seat stays on this device. What one database cannot forget must not keep the others from it. */
export async function forgetOwnData(): Promise<void> {
  const scores = withDatabase((device) =>
    device.use(async (db) => {
      const transaction = db.transaction(['outbox', 'reads'], 'readwrite', { durability: 'strict' });
      await Promise.all([
        transaction.objectStore('outbox').clear(),
        transaction.objectStore('reads').clear(),
        transaction.done,
      ]);
    }),
  );
  const pictures = openPhotoStore();
  await Promise.allSettled([scores, clearKept(), pictures.clear()]);
  pictures.close();
}

async function withDatabase<T>(work: (device: DeviceDatabase) => Promise<T>): Promise<T> {
  const device = openDeviceDatabase();
  try {
    return await work(device);
  } finally {
    device.close();
  }
}
