import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { backUp } from './backUp';
import { keepPictures } from './pictureCopies';
import { storageFault } from './storageFault';

export type BackUpAnswer = { readonly fault: null } | { readonly fault: string; readonly diskFull: boolean };

const jobSchema = z.union([
  z.strictObject({ source: z.string(), target: z.string() }),
  z.strictObject({ backup: z.string(), pictures: z.string(), copies: z.string() }),
]);
/** A copy of the data, or copies of the pictures that a finished one names. */
export type BackUpJob = z.infer<typeof jobSchema>;

const job = jobSchema.parse(workerData);

/** One job in a thread of its own: copying and checking take a disk's time, and the server's loop has none to give. */
async function answer(): Promise<BackUpAnswer> {
  try {
    if ('target' in job) await backUp(job.source, job.target);
    else keepPictures(job.backup, job);
    return { fault: null };
  } catch (error) {
    const full =
      storageFault(error) === 'disk-full' || (error instanceof Error && 'code' in error && error.code === 'ENOSPC');
    return { fault: error instanceof Error ? error.message : String(error), diskFull: full };
  }
}

parentPort?.postMessage(await answer());
