import { Worker } from 'node:worker_threads';
import type { BackUpAnswer, BackUpJob } from '#db/backUpWorker';

export class BackupFailed extends Error {
  readonly diskFull: boolean;

  constructor(fault: string, diskFull: boolean) {
    super(fault);
    this.name = 'BackupFailed';
    this.diskFull = diskFull;
  }
}

/** Runs one job of a backup in a thread that starts from `module` and ends with it. Throws BackupFailed. */
export function copyInThread(module: URL, job: BackUpJob): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(module, { workerData: job });
    worker.once('message', (answer: BackUpAnswer) => {
      if (answer.fault === null) resolve();
      else reject(new BackupFailed(answer.fault, answer.diskFull));
    });
    worker.once('error', (error) => reject(new BackupFailed(error.message, false)));
    worker.once('exit', (code) => reject(new BackupFailed(`the thread ended with ${code}`, false)));
  });
}
