import { Worker } from 'node:worker_threads';

/** Checks a data file as `verify` does, and that its evaluations can be read; answers what is wrong, in words without a score. */
export type Examine = (file: string) => Promise<readonly string[]>;

/** In a thread of its own: working results out again takes seconds that the server's loop has not. */
export function examineInThread(module: URL): Examine {
  return (file) =>
    new Promise((resolve, reject) => {
      const worker = new Worker(module, { workerData: file });
      worker.once('message', (faults: readonly string[]) => resolve(faults));
      worker.once('error', reject);
      worker.once('exit', (code) => reject(new Error(`the thread ended with ${code}`)));
    });
}
