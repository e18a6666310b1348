import type { Agreement } from '#lib/reconcile/agreement/agreement';
import type { LookBatch, LooksAsk } from '#lib/reconcile/looks/chooseLooks';
import type { EvaluatorProfile, ProfileSource } from '#lib/reconcile/seats/evaluatorProfile';
import type { Panel, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import type { Reconciliation, Undefined } from '#lib/reconcile/merit/reconciliation';
import type { Robustness } from '#lib/reconcile/merit/robustness';
import type { SeatQuestions } from '#lib/reconcile/seats/seatQuestions';

/** The statistics, off the server's own loop. Same question, same answer (ST2). */
export type Reconciler = {
  reconcile(question: ReconcileQuestion): Promise<Reconciliation>;
  agreement(panel: Panel): Promise<Agreement>;
  /** What the panel may want to ask of how its seats scored. */
  questions(panel: Panel): Promise<SeatQuestions>;
  profile(source: ProfileSource): Promise<EvaluatorProfile[]>;
  /** The next batch of second looks worth opening for one place. */
  looks(question: ReconcileQuestion, ask: LooksAsk): Promise<LookBatch | Undefined>;
  /** What else the numbers might have been; follows the result and takes several times as long. */
  robustness(question: ReconcileQuestion): Promise<Robustness>;
  close(): Promise<void>;
};

/** What crosses to the worker thread, and back. */
export type Job =
  | { readonly kind: 'reconcile'; readonly question: ReconcileQuestion }
  | { readonly kind: 'agreement'; readonly panel: Panel }
  | { readonly kind: 'profile'; readonly source: ProfileSource }
  | { readonly kind: 'questions'; readonly panel: Panel }
  | { readonly kind: 'robustness'; readonly question: ReconcileQuestion }
  | { readonly kind: 'looks'; readonly question: ReconcileQuestion; readonly ask: LooksAsk };
export type JobMessage = { readonly id: number; readonly job: Job };
export type JobReply =
  | { readonly id: number; readonly value: unknown }
  | { readonly id: number; readonly fault: string };
