import { createHash } from 'node:crypto';
import { findResult } from '#db/queries/findResult';
import { saveResult } from '#db/queries/saveResult';
import type { LookAnswerRow } from '#db/queries/unblinded/listLookAnswers';
import type { Snapshot } from '#lib/contract/snapshot';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { Agreement } from '#lib/reconcile/agreement';
import { agreementBand, type AgreementBand } from '#lib/reconcile/agreementBand';
import { ENGINE_VERSION } from '#lib/reconcile/reconcile';
import type { EvaluatorProfile, ProfileSource } from '#lib/reconcile/evaluatorProfile';
import type { LookAnswer, Panel, ReconcileQuestion } from '#lib/reconcile/panel';
import type { Reconciliation } from '#lib/reconcile/reconciliation';
import { repeatsFromSnapshot } from '#lib/reconcile/repeatsFromSnapshot';
import { showingOrders } from '#lib/reconcile/showingOrders';
import type { Runtime } from '../runtime';
import { resultQuestion, type ResultQuestion } from './resultQuestion';

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

export type Computed = Pick<Result, 'reconciliation' | 'bands' | 'profiles'>;
type Asked = { readonly question: ReconcileQuestion } & Pick<ProfileSource, 'orders' | 'repeats'>;

const underWay = new WeakMap<Runtime, Map<string, Promise<Computed>>>();

/**
 * What the engine says of a revealed evaluation. Before reveal there is no snapshot to read: wrong-phase (BL6).
 * Cached by the snapshots, the look batches, the picks, the holds, what stands beside the scores and the engine's version.
 */
export async function readResult(runtime: Runtime, facts: EvaluationFacts): Promise<Result> {
  const asked = resultQuestion(runtime, facts);
  const { question, lookAnswers, body: snapshot, first, second } = asked;
  const computed = await compute(runtime, resultKey(asked), { question, orders: showingOrders(snapshot), repeats: repeatsFromSnapshot(snapshot) });
  return { snapshot, first, second, panel: question.panel, lookAnswers, looks: question.looks, ...computed };
}

/** Under which a result is stored. */
export function resultKey({ sources }: Pick<ResultQuestion, 'sources'>): string {
  return createHash('sha256').update(JSON.stringify([ENGINE_VERSION, ...sources])).digest('hex');
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

export function bandsOf({ criteria }: Panel, { byCriterion }: Agreement): Computed['bands'] {
  return Object.fromEntries(criteria.map(({ key }) => [key, agreementBand(byCriterion[key]?.alpha.ordinal)]));
}

async function computeFresh({ db, clock, reconciler }: Runtime, key: string, { question, orders, repeats }: Asked): Promise<Computed> {
  const reconciliation = await reconciler.reconcile(question);
  const agreed = await reconciler.agreement(question.panel);
  const profiles = await reconciler.profile({ panel: question.panel, orders, repeats });
  const bands = bandsOf(question.panel, agreed);
  saveResult(db, { key, body: JSON.stringify({ reconciliation, bands, profiles }), computedAt: clock.now() });
  return { reconciliation, bands, profiles };
}
