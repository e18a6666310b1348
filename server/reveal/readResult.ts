import { createHash } from 'node:crypto';
import { findResult } from '#db/queries/findResult';
import { listClearances } from '#db/queries/listClearances';
import { listDecisions } from '#db/queries/listDecisions';
import { listLooks } from '#db/queries/listLooks';
import { saveResult } from '#db/queries/saveResult';
import { listLookAnswers, type LookAnswerRow } from '#db/queries/unblinded/listLookAnswers';
import type { Snapshot } from '#lib/contract/snapshot';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { slotEligibility } from '#lib/evaluation/slotEligibility';
import { agreementBand, type AgreementBand } from '#lib/reconcile/agreementBand';
import { besideFromSnapshot } from '#lib/reconcile/besideFromSnapshot';
import { ENGINE_VERSION } from '#lib/reconcile/reconcile';
import type { EvaluatorProfile, ProfileSource } from '#lib/reconcile/evaluatorProfile';
import type { LookAnswer, Panel, ReconcileQuestion } from '#lib/reconcile/panel';
import { panelFromSnapshot } from '#lib/reconcile/panelFromSnapshot';
import { showingOrders } from '#lib/reconcile/showingOrders';
import type { Reconciliation } from '#lib/reconcile/reconciliation';
import type { Runtime } from '../runtime';
import { readSnapshot } from './readSnapshot';

export type Result = {
  /** Second scores where given, else first. */
  readonly snapshot: Snapshot;
  readonly second: Snapshot | null;
  readonly first: Snapshot;
  readonly panel: Panel;
  readonly reconciliation: Reconciliation;
  readonly bands: Readonly<Record<string, AgreementBand>>;
  readonly profiles: readonly EvaluatorProfile[];
  readonly lookAnswers: readonly LookAnswerRow[];
};

type Computed = Pick<Result, 'reconciliation' | 'bands' | 'profiles'>;
type Asked = { readonly question: ReconcileQuestion; readonly orders: ProfileSource['orders'] };

const underWay = new WeakMap<Runtime, Map<string, Promise<Computed>>>();

/**
 * What the engine says of a revealed evaluation. Before reveal there is no snapshot to read: wrong-phase (BL6).
 * Cached by the snapshot, the look batches, the picks, the holds, what stands beside the scores and the engine's version.
 */
export async function readResult(runtime: Runtime, facts: EvaluationFacts): Promise<Result> {
  const { db } = runtime;
  const { ids, body: snapshot, first, second } = readSnapshot(runtime, facts);
  const lookAnswers = listLookAnswers(db, facts.id);
  const question = questionOf(runtime, { facts, snapshot, lookAnswers });
  const batches = [...new Set(lookAnswers.map((answer) => answer.batchId))];
  const key = createHash('sha256').update(JSON.stringify([ENGINE_VERSION, ids, batches, question.slots, question.beside])).digest('hex');
  const computed = await compute(runtime, key, { question, orders: showingOrders(snapshot) });
  return { snapshot, first, second, panel: question.panel, lookAnswers, ...computed };
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

async function computeFresh({ db, clock, reconciler }: Runtime, key: string, { question, orders }: Asked): Promise<Computed> {
  const reconciliation = await reconciler.reconcile(question);
  const agreed = await reconciler.agreement(question.panel);
  const profiles = await reconciler.profile({ panel: question.panel, orders, repeats: [] });
  const bands = Object.fromEntries(question.panel.criteria.map(({ key: criterion }) => [criterion, agreementBand(agreed.byCriterion[criterion]?.alpha.ordinal)]));
  saveResult(db, { key, body: JSON.stringify({ reconciliation, bands, profiles }), computedAt: clock.now() });
  return { reconciliation, bands, profiles };
}

type Sources = { readonly facts: EvaluationFacts; readonly snapshot: Snapshot; readonly lookAnswers: readonly LookAnswerRow[] };

function questionOf({ db }: Runtime, { facts, snapshot, lookAnswers }: Sources): ReconcileQuestion {
  const holds = holdsOf(snapshot, listClearances(db, facts.id));
  const held = new Set(holds.filter((hold) => !hold.cleared).map((hold) => hold.puppyId));
  const decisions = listDecisions(db, facts.id);
  return {
    panel: panelFromSnapshot(snapshot),
    purposes: snapshot.purposes,
    slots: snapshot.slots.map((slot) => {
      const made = decisions.find((decision) => decision.slotId === slot.id);
      // A place left empty on purpose takes nobody from the places after it.
      const eligible = made && made.puppyId === null ? [] : slotEligibility(slot, snapshot.puppies, held);
      return { key: slot.id, purpose: slot.purpose, eligible, picked: made?.puppyId ?? null };
    }),
    looks: looksOf(lookAnswers, { db, facts }),
    beside: besideFromSnapshot(snapshot, holds),
  };
}

function looksOf(answers: readonly LookAnswerRow[], { db, facts }: { readonly db: Runtime['db']; readonly facts: EvaluationFacts }): LookAnswer[] {
  const looks = new Map(listLooks(db, facts.id).map((look) => [look.id, look]));
  return answers.flatMap((answer) => {
    const look = looks.get(answer.lookId);
    const slot = facts.slots.find((one) => one.id === look?.slotId);
    if (!look || !slot) return [];
    return [{ evaluator: answer.seatId, purpose: slot.purpose, first: look.firstPuppyId, second: look.secondPuppyId, choice: answer.choice }];
  });
}
