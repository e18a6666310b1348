import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import { backUp } from './backUp';
import { storageFault } from './storageFault';

export type BackUpAnswer = { readonly fault: null } | { readonly fault: string; readonly kind: string | null };

const { source, target } = z.object({ source: z.string(), target: z.string() }).parse(workerData);

/** One backup in a thread of its own: copying and checking take a disk's time, and the server's loop has none to give. */
async function answer(): Promise<BackUpAnswer> {
  try {
    await backUp(source, target);
    return { fault: null };
  } catch (error) {
    return { fault: error instanceof Error ? error.message : String(error), kind: storageFault(error) };
  }
}

parentPort?.postMessage(await answer());
