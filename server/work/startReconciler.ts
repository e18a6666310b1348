import { Worker } from 'node:worker_threads';
import type { Agreement } from '#lib/reconcile/agreement/agreement';
import type { LookBatch } from '#lib/reconcile/looks/chooseLooks';
import type { EvaluatorProfile } from '#lib/reconcile/seats/evaluatorProfile';
import type { Reconciliation, Undefined } from '#lib/reconcile/merit/reconciliation';
import type { Robustness } from '#lib/reconcile/merit/robustness';
import type { SeatQuestions } from '#lib/reconcile/seats/seatQuestions';
import type { Job, JobMessage, JobReply, Reconciler } from './reconciler';

type Waiting = { readonly resolve: (value: unknown) => void; readonly reject: (fault: Error) => void };

/** Starts the statistics thread from a module's URL. A thread that dies fails what it was asked and starts anew with the next question. */
export function startReconciler(module: URL): Reconciler {
  const waiting = new Map<number, Waiting>();
  let thread: Worker | null = null;
  let last = 0;

  const fail = (fault: Error) => {
    for (const one of waiting.values()) one.reject(fault);
    waiting.clear();
    thread = null;
  };
  const start = () => {
    const worker = new Worker(module);
    worker.on('message', (reply: JobReply) => {
      const one = waiting.get(reply.id);
      waiting.delete(reply.id);
      if ('fault' in reply) one?.reject(new Error(reply.fault));
      else one?.resolve(reply.value);
    });
    worker.on('error', fail);
    worker.on('exit', () => thread === worker && fail(new Error('the statistics thread ended')));
    worker.unref();
    return worker;
  };
  const ask = (job: Job) =>
    new Promise<unknown>((resolve, reject) => {
      thread ??= start();
      const message: JobMessage = { id: (last += 1), job };
      waiting.set(message.id, { resolve, reject });
      thread.postMessage(message);
    });

  return {
    // The worker is our own code built with this file: its answers have the engine's types.
    reconcile: async (question) => (await ask({ kind: 'reconcile', question })) as Reconciliation,
    agreement: async (panel) => (await ask({ kind: 'agreement', panel })) as Agreement,
    profile: async (source) => (await ask({ kind: 'profile', source })) as EvaluatorProfile[],
    questions: async (panel) => (await ask({ kind: 'questions', panel })) as SeatQuestions,
    looks: async (question, looksAsk) =>
      (await ask({ kind: 'looks', question, ask: looksAsk })) as LookBatch | Undefined,
    robustness: async (question) => (await ask({ kind: 'robustness', question })) as Robustness,
    close: async () => {
      const ending = thread;
      thread = null;
      await ending?.terminate();
    },
  };
}
