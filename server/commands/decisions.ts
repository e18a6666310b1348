import { clearanceHashes, decisionHashes, reasonHashes } from '#db/queries/boundHashes';
import {
  insertClearance,
  insertDecision,
  isAnswered,
  isDecided,
  listClearances,
  listDecisions,
} from '#db/queries/decisions';
import { setEvaluationPhase } from '#db/queries/evaluations';
import { getSnapshot } from '#db/queries/results';
import type { Decision, Hold, HoldChoice, Unexamined } from '#lib/contract/decisionView';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import { checkNames, unexaminedOf } from '#lib/evaluation/checksMade';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { choiceWords, decideChoice, holdsOf } from '#lib/evaluation/holdsOf';
import { decidePick, decideSeal, mayDecideNow, mayPick } from '#lib/evaluation/pickOrder';
import { scoredRounds } from '#lib/evaluation/rounds';
import { type Binding, withBindings } from '#lib/proof/recordKinds';
import { notesBinding, resultBinding } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import { actorOf, type Asker, change, refuse, writeEvaluation } from '../write/writeEvaluation';

type Pick = {
  /** The same when it is asked again (SC2); left out for a fresh one. */
  readonly decisionId?: string;
  readonly evaluationId: string;
  readonly slotId: string;
  readonly puppyId: string | null;
  readonly unexamined: readonly string[];
  readonly reason: string;
  readonly preference: boolean;
  /** The panel's most probable puppy for this slot, from the result the decider saw; null when it named none. */
  readonly panelsPuppyId: string | null;
};

/** One pick, in order, with who made it, why, and whether it followed the panel. */
export function makeDecision(ctx: Asker, pick: Pick): void {
  const { runtime } = ctx;
  change({ ctx, id: pick.evaluationId }, ({ facts, viewer, seat, at, touchAll, note }) => {
    if (!mayPick(facts, viewer, pick.slotId)) throw new DomainError('not-allowed');
    const standing = standingOf(runtime, facts);
    refuse(decidePick(facts, pick, standing));
    // What the engine said before this pick: the pick itself changes the question.
    const said = resultBinding(runtime.db, facts);
    const by = viewer.owner ? 'owner' : (seat?.label ?? '');
    insertDecision(runtime.db, {
      id: pick.decisionId ?? runtime.random.id(),
      evaluationId: pick.evaluationId,
      slotId: pick.slotId,
      puppyId: pick.puppyId,
      by,
      reason: pick.reason,
      preference: pick.preference,
      followedPanel: pick.panelsPuppyId === null || pick.puppyId === null ? null : pick.panelsPuppyId === pick.puppyId,
      at,
    });
    const slot = facts.slots.findIndex((one) => one.id === pick.slotId) + 1;
    const open = standing.unexamined.find(({ puppyId }) => puppyId === pick.puppyId)?.checks ?? [];
    const knowing = open.length === 0 ? '' : `, examined by nobody: ${checkNames(open)}`;
    const words = `place ${slot}: ${facts.puppies.find((puppy) => puppy.id === pick.puppyId)?.name ?? 'nobody'}${knowing}`;
    note(actorOf(viewer), 'decided', withBindings(words, [...decisionBinding(runtime, facts), ...said]));
    touchAll();
  });
}

/** The newest row: what was decided, and apart from it by whom and why. */
function decisionBinding({ db }: Runtime, { id }: EvaluationFacts): readonly Binding[] {
  return [
    ['decision', decisionHashes(db, id).at(-1) ?? ''],
    ['reason', reasonHashes(db, id).at(-1) ?? ''],
  ];
}

/** Takes back the last pick, on the record, while nothing is sealed. */
export function takeBackDecision(
  runtime: Runtime,
  {
    evaluationId,
    decisionId,
  }: {
    readonly evaluationId: string /** The same when it is asked again (SC2): else a repeat would take back one more. */;
    readonly decisionId: string;
  },
): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (isDecided(runtime.db, decisionId)) return;
    refuse(mayDecideNow(facts));
    const { decisions } = standingOf(runtime, facts);
    const last = facts.slots.findLast((slot) => decisions.some((decision) => decision.slotId === slot.id));
    if (!last) throw new DomainError('wrong-phase');
    const empty = {
      slotId: last.id,
      puppyId: null,
      by: 'owner',
      reason: '',
      preference: false,
      followedPanel: null,
      at,
      takenBack: true,
    } as const;
    insertDecision(runtime.db, { ...empty, id: decisionId, evaluationId });
    note(
      'owner',
      'decision-taken-back',
      withBindings(`place ${facts.slots.indexOf(last) + 1}`, decisionBinding(runtime, facts)),
    );
    touchAll();
  });
}

/** Seals the record: nothing of this evaluation changes after. */
export function sealEvaluation(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideSeal(facts, standingOf(runtime, facts)));
    setEvaluationPhase(runtime.db, evaluationId, { phase: 'sealed', at });
    note(
      'owner',
      'sealed',
      withBindings('', [...notesBinding(runtime.db, evaluationId), ...resultBinding(runtime.db, facts)]),
    );
    touchAll();
  });
}

type Answer = {
  /** The same when it is asked again (SC2). */
  readonly answerId: string;
  readonly evaluationId: string;
  readonly puppyId: string;
  readonly check: string;
  readonly answer: string;
  readonly by: string;
  readonly choice: HoldChoice;
};

/**
 * Writes down what a veterinary surgeon said to a hold, and what the owner chose on it; only *cleared* lets the hold fall. An
 * earlier answer stays and is superseded. The tool itself says nothing of health.
 */
export function answerHold(
  runtime: Runtime,
  { answerId, evaluationId, puppyId, check, answer, by, choice }: Answer,
): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (isAnswered(runtime.db, answerId)) return;
    refuse(mayDecideNow(facts));
    refuse(decideChoice(choice, at));
    if (!standingOf(runtime, facts).holds.some((one) => one.puppyId === puppyId && one.check === check))
      throw new DomainError('not-found');
    insertClearance(runtime.db, { id: answerId, evaluationId, puppyId, check, answer, by, choice, at });
    // What was said, and by whom, stands in the answer: no person's name goes into what can never change.
    const words = `${facts.puppies.find((puppy) => puppy.id === puppyId)?.name ?? ''}, ${checkNames([check])}: ${choiceWords(choice)}`;
    note(
      'owner',
      'hold-answered',
      withBindings(words, [['clearance', clearanceHashes(runtime.db, evaluationId).at(-1) ?? '']]),
    );
    touchAll();
  });
}

type Standing = {
  readonly decisions: readonly Decision[];
  readonly holds: readonly Hold[];
  readonly unexamined: readonly Unexamined[] /** Of the round in which checks were asked. */;
  readonly snapshot: Snapshot;
};

/** Decisions and holds of a revealed evaluation. Throws wrong-phase before reveal. */
export function standingOf({ db }: Runtime, facts: EvaluationFacts): Standing {
  const [first] = scoredRounds(facts);
  if (!first) throw new DomainError('wrong-phase');
  // Checks are asked once, in the first round.
  const { body } = getSnapshot(db, first.id);
  return {
    decisions: listDecisions(db, facts.id),
    holds: holdsOf(body, listClearances(db, facts.id)),
    unexamined: unexaminedOf(body),
    snapshot: body,
  };
}
