import { createHash } from 'node:crypto';
import { findResult } from '#db/queries/findResult';
import { saveResult } from '#db/queries/saveResult';
import type { LookAnswerRow } from '#db/queries/unblinded/listLookAnswers';
import type { Snapshot } from '#lib/contract/snapshot';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { agreementBand, type AgreementBand } from '#lib/reconcile/agreementBand';
import { ENGINE_VERSION } from '#lib/reconcile/reconcile';
import type { EvaluatorProfile, ProfileSource } from '#lib/reconcile/evaluatorProfile';
import type { LookAnswer, Panel, ReconcileQuestion } from '#lib/reconcile/panel';
import type { Reconciliation } from '#lib/reconcile/reconciliation';
import { repeatsFromSnapshot } from '#lib/reconcile/repeatsFromSnapshot';
import { showingOrders } from '#lib/reconcile/showingOrders';
import type { Runtime } from '../runtime';
import { resultQuestion } from './resultQuestion';

export type Result = {
  /** Second scores where given, else first. */
  readonly snapshot: Snapshot;
  readonly first: Snapshot;
  readonly second: Snapshot | null;
  readonly panel: Panel;
  readonly reconciliation: Reconciliation;
  readonly bands: Readonly<Record<string, AgreementBand>>;
  readonly profiles: readonly EvaluatorProfile[];
  readonly lookAnswers: readonly LookAnswerRow[];
  /** The same as the engine takes them. */
  readonly looks: readonly LookAnswer[];
};

type Computed = Pick<Result, 'reconciliation' | 'bands' | 'profiles'>;
type Asked = { readonly question: ReconcileQuestion } & Pick<ProfileSource, 'orders' | 'repeats'>;

const underWay = new WeakMap<Runtime, Map<string, Promise<Computed>>>();

/**
 * What the engine says of a revealed evaluation. Before reveal there is no snapshot to read: wrong-phase (BL6).
 * Cached by the snapshots, the look batches, the picks, the holds, what stands beside the scores and the engine's version.
 */
export async function readResult(runtime: Runtime, facts: EvaluationFacts): Promise<Result> {
  const { question, lookAnswers, body: snapshot, first, second, sources } = resultQuestion(runtime, facts);
  const key = createHash('sha256').update(JSON.stringify([ENGINE_VERSION, ...sources])).digest('hex');
  const computed = await compute(runtime, key, { question, orders: showingOrders(snapshot), repeats: repeatsFromSnapshot(snapshot) });
  return { snapshot, first, second, panel: question.panel, lookAnswers, looks: question.looks, ...computed };
}

function compute(runtime: Runtime, key: string, asked: Asked): Promise<Computed> {
  const stored = findResult(runtime.db, key);
  // Written by this very function: the JSON has its type.
  if (stored !== undefined) return Promise.resolve(JSON.parse(stored) as Computed);
  const running = underWay.get(runtime) ?? new Map<string, Promise<Computed>>();
  underWay.set(runtime, running);
  const started = running.get(key) ?? computeFresh(runtime, key, asked).finally(() => running.delete(key));
  running.set(key, started);
  return started;
}

async function computeFresh({ db, clock, reconciler }: Runtime, key: string, { question, orders, repeats }: Asked): Promise<Computed> {
  const reconciliation = await reconciler.reconcile(question);
  const agreed = await reconciler.agreement(question.panel);
  const profiles = await reconciler.profile({ panel: question.panel, orders, repeats });
  const bands = Object.fromEntries(question.panel.criteria.map(({ key: criterion }) => [criterion, agreementBand(agreed.byCriterion[criterion]?.alpha.ordinal)]));
  saveResult(db, { key, body: JSON.stringify({ reconciliation, bands, profiles }), computedAt: clock.now() });
  return { reconciliation, bands, profiles };
}
