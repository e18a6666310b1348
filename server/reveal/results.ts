import { createHash } from 'node:crypto';
import { listClearances, listDecisions } from '#db/queries/decisions';
import { listLooks } from '#db/queries/looks';
import { findResult, getSnapshot, saveResult } from '#db/queries/results';
import { listLookAnswers, type LookAnswerRow } from '#db/queries/unblinded/answers';
import type { Hold } from '#lib/contract/decisionView';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { slotEligibility } from '#lib/evaluation/pickOrder';
import { scoredRounds } from '#lib/evaluation/rounds';
import type { Moment } from '#lib/proof/promises';
import type { Agreement } from '#lib/reconcile/agreement/agreement';
import { agreementBand, type AgreementBand } from '#lib/reconcile/agreement/agreementBand';
import { besideFromSnapshot } from '#lib/reconcile/panel/besideFromSnapshot';
import type { EvaluatorProfile, ProfileSource } from '#lib/reconcile/seats/evaluatorProfile';
import { mergedSnapshot } from '#lib/reconcile/panel/mergedSnapshot';
import type { LookAnswer, Panel, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import { ENGINE_VERSION } from '#lib/reconcile/merit/reconcile';
import type { Robustness } from '#lib/reconcile/merit/robustness';
import type { SeatQuestions } from '#lib/reconcile/seats/seatQuestions';
import type { Reconciliation } from '#lib/reconcile/merit/reconciliation';
import { repeatsFromSnapshot } from '#lib/reconcile/panel/repeatsFromSnapshot';
import { showingOrders } from '#lib/reconcile/panel/showingOrders';
import type { Runtime } from '../runtime';

type Result = {
  /** Second scores where given, else first. */
  readonly snapshot: Snapshot;
  readonly first: Snapshot;
  readonly second: Snapshot | null;
  readonly panel: Panel;
  readonly reconciliation: Reconciliation;
  readonly bands: Readonly<Record<string, AgreementBand>>;
  readonly profiles: readonly EvaluatorProfile[];
  readonly questions: SeatQuestions;
  readonly lookAnswers: readonly LookAnswerRow[];
  /** The same as the engine takes them. */
  readonly looks: readonly LookAnswer[];
  readonly holds: readonly Hold[];
};

export type Computed = Pick<Result, 'reconciliation' | 'bands' | 'profiles' | 'questions'>;
type Asked = { readonly question: ReconcileQuestion } & Pick<ProfileSource, 'orders' | 'repeats'>;

const underWay = new WeakMap<Runtime, Map<string, Promise<Computed>>>();

/**
 * What the engine says of a revealed evaluation. Before reveal there is no snapshot to read: wrong-phase (BL6).
 * Cached by the snapshots, the look batches, the picks, the holds, what stands beside the scores and the engine's version.
 */
export async function readResult(runtime: Runtime, facts: EvaluationFacts): Promise<Result> {
  const asked = resultQuestion(runtime, facts);
  const { question, lookAnswers, holds, body: snapshot, first, second } = asked;
  const computed = await compute(runtime, resultKey(asked), {
    question,
    orders: showingOrders(snapshot),
    repeats: repeatsFromSnapshot(snapshot),
  });
  return { snapshot, first, second, panel: question.panel, lookAnswers, looks: question.looks, holds, ...computed };
}

/** Under which a result is stored. */
export function resultKey({ sources }: Pick<ResultQuestion, 'sources'>): string {
  return createHash('sha256')
    .update(JSON.stringify([ENGINE_VERSION, ...sources]))
    .digest('hex');
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
  return Object.fromEntries(criteria.map(({ key }) => [key, agreementBand(byCriterion[key]?.absolute)]));
}

async function computeFresh(
  { db, clock, reconciler }: Runtime,
  key: string,
  { question, orders, repeats }: Asked,
): Promise<Computed> {
  const reconciliation = await reconciler.reconcile(question);
  const agreed = await reconciler.agreement(question.panel);
  const profiles = await reconciler.profile({ panel: question.panel, orders, repeats });
  const questions = await reconciler.questions(question.panel);
  const computed = { reconciliation, bands: bandsOf(question.panel, agreed), profiles, questions };
  saveResult(db, { key, body: JSON.stringify(computed), computedAt: clock.now() });
  return computed;
}

export type ResultQuestion = ReadSnapshot & {
  readonly question: ReconcileQuestion;
  readonly lookAnswers: readonly LookAnswerRow[];
  readonly holds: readonly Hold[];
  /** Everything the answer depends on, for a cache key. */
  readonly sources: readonly unknown[];
};

/**
 * What the engine is asked about a revealed evaluation: scores, looks, picks and holds as they stand, or as they stood at
 * an earlier moment. Throws wrong-phase before reveal (BL6).
 */
export function resultQuestion(
  runtime: Pick<Runtime, 'db'>,
  facts: EvaluationFacts,
  moment: Moment = now,
): ResultQuestion {
  const read = readSnapshot(runtime, factsAt(facts, moment));
  const closed = [
    ...new Set(
      listLooks(runtime.db, facts.id)
        .filter((look) => look.state === 'revealed')
        .map((look) => look.batchId),
    ),
  ].slice(0, moment.batches);
  const lookAnswers = listLookAnswers(runtime.db, facts.id).filter((answer) => closed.includes(answer.batchId));
  const holds = holdsOf(read.body, listClearances(runtime.db, facts.id).slice(0, moment.clearances));
  const question = questionOf(runtime, { facts, read, lookAnswers, holds, moment });
  const batches = [...new Set(lookAnswers.map((answer) => answer.batchId))];
  return { ...read, question, lookAnswers, holds, sources: [read.ids, batches, question.slots, question.beside] };
}

const now: Moment = { rounds: Infinity, batches: Infinity, decisions: Infinity, clearances: Infinity };

function factsAt(facts: EvaluationFacts, { rounds }: Moment): EvaluationFacts {
  const then = scoredRounds(facts).slice(0, rounds);
  return { ...facts, round: then.at(-1) ?? null, earlierRounds: then.slice(0, -1) };
}

type Sources = {
  readonly facts: EvaluationFacts;
  readonly read: ReadSnapshot;
  readonly lookAnswers: readonly LookAnswerRow[];
  readonly holds: readonly Hold[];
  readonly moment: Moment;
};

function questionOf(
  { db }: Pick<Runtime, 'db'>,
  { facts, read: { body: snapshot }, lookAnswers, holds, moment }: Sources,
): ReconcileQuestion {
  const held = new Set(holds.filter(({ stands }) => stands).map((hold) => hold.puppyId));
  const decisions = listDecisions(db, facts.id, moment.decisions);
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

function looksOf(
  answers: readonly LookAnswerRow[],
  { db, facts }: { readonly db: Runtime['db']; readonly facts: EvaluationFacts },
): LookAnswer[] {
  const looks = new Map(listLooks(db, facts.id).map((look) => [look.id, look]));
  return answers.flatMap((answer) => {
    const look = looks.get(answer.lookId);
    const slot = facts.slots.find((one) => one.id === look?.slotId);
    if (!look || !slot) return [];
    return [
      {
        evaluator: answer.seatId,
        purpose: slot.purpose,
        first: look.firstPuppyId,
        second: look.secondPuppyId,
        choice: answer.choice,
      },
    ];
  });
}

type ReadSnapshot = {
  /** Names everything the result is computed from, for its cache key. */
  readonly ids: readonly string[];
  /** What merit is worked out from: second scores where given, else first. */
  readonly body: Snapshot;
  readonly first: Snapshot;
  readonly second: Snapshot | null;
};

/** What reveal stored of an evaluation's scored rounds. Throws wrong-phase before the first reveal (BL6). */
export function readSnapshot({ db }: Pick<Runtime, 'db'>, facts: EvaluationFacts): ReadSnapshot {
  const [first, second] = scoredRounds(facts).map((round) => getSnapshot(db, round.id));
  if (!first) throw new DomainError('wrong-phase');
  const after = second?.body ?? null;
  return {
    ids: [first.id, ...(second ? [second.id] : [])],
    body: mergedSnapshot(first.body, after),
    first: first.body,
    second: after,
  };
}

/**
 * What else the result might have been. It takes several times as long as the result, so it is a question of its own, asked by who opens it, and stored.
 * Throws wrong-phase before reveal (BL6).
 */
export async function readRobustness(runtime: Runtime, facts: EvaluationFacts): Promise<Robustness> {
  const { db, clock, reconciler } = runtime;
  const { question, sources } = resultQuestion(runtime, facts);
  const key = createHash('sha256')
    .update(JSON.stringify(['robustness', ENGINE_VERSION, ...sources]))
    .digest('hex');
  const stored = findResult(db, key);
  // Written by this very function: the JSON has its type.
  if (stored !== undefined) return JSON.parse(stored) as Robustness;
  const found = await reconciler.robustness(question);
  saveResult(db, { key, body: JSON.stringify(found), computedAt: clock.now() });
  return found;
}

/** All agreement coefficients of a revealed round. Throws wrong-phase before reveal (BL6). */
export function readAgreement(runtime: Runtime, facts: EvaluationFacts): Promise<Agreement> {
  return runtime.reconciler.agreement(panelFromSnapshot(readSnapshot(runtime, facts).body));
}
