import type { Reconciler } from '#server/work/reconciler';
import { startReconciler } from '#server/work/startReconciler';

/**
 * One statistics thread for all servers of a test worker: it keeps no state between questions, and a fresh one spends a second on
 * compiling the engine. No server closes it; it ends with the worker.
 */
export const sharedStatistics: Reconciler = {
  ...startReconciler(new URL('./tsWorker.mjs', import.meta.url)),
  close: () => Promise.resolve(),
};
