import { parentPort } from 'node:worker_threads';
import { invariant } from '#lib/invariant';
import { agreement } from '#lib/reconcile/agreement/agreement';
import { chooseLooks } from '#lib/reconcile/looks/chooseLooks';
import { evaluatorProfile } from '#lib/reconcile/seats/evaluatorProfile';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { robustness } from '#lib/reconcile/merit/robustness';
import { seatQuestions } from '#lib/reconcile/seats/seatQuestions';
import type { Job, JobMessage, JobReply } from './reconciler';

invariant(parentPort, 'the statistics run in a worker thread');
const port = parentPort;

port.on('message', ({ id, job }: JobMessage) => {
  port.postMessage(answer(id, job));
});

function work(job: Job): unknown {
  switch (job.kind) {
    case 'reconcile':
      return reconcile(job.question);
    case 'agreement':
      return agreement(job.panel);
    case 'profile':
      return evaluatorProfile(job.source);
    case 'questions':
      return seatQuestions(job.panel);
    case 'robustness':
      return robustness(job.question);
    case 'looks':
      return chooseLooks(job.question, job.ask);
  }
}

function answer(id: number, job: Job): JobReply {
  try {
    return { id, value: work(job) };
  } catch (error) {
    return { id, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
