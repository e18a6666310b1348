import { parentPort } from 'node:worker_threads';
import { invariant } from '#lib/invariant';
import { agreement } from '#lib/reconcile/agreement';
import { reconcile } from '#lib/reconcile/reconcile';
import type { Job, JobMessage, JobReply } from './job';

invariant(parentPort, 'the statistics run in a worker thread');
const port = parentPort;

port.on('message', ({ id, job }: JobMessage) => {
  port.postMessage(answer(id, job));
});

function answer(id: number, job: Job): JobReply {
  try {
    return { id, value: job.kind === 'reconcile' ? reconcile(job.question) : agreement(job.panel) };
  } catch (error) {
    return { id, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
