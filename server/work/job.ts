import type { LooksAsk } from '#lib/reconcile/chooseLooks';
import type { ProfileSource } from '#lib/reconcile/evaluatorProfile';
import type { Panel, ReconcileQuestion } from '#lib/reconcile/panel';

/** What crosses to the worker thread, and back. */
export type Job =
  | { readonly kind: 'reconcile'; readonly question: ReconcileQuestion }
  | { readonly kind: 'agreement'; readonly panel: Panel }
  | { readonly kind: 'profile'; readonly source: ProfileSource }
  | { readonly kind: 'looks'; readonly question: ReconcileQuestion; readonly ask: LooksAsk };
export type JobMessage = { readonly id: number; readonly job: Job };
export type JobReply = { readonly id: number; readonly value: unknown } | { readonly id: number; readonly fault: string };
