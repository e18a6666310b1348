import { insertDecision } from '#db/queries/insertDecision';
import { listLooks } from '#db/queries/listLooks';
import { setEvaluationPhase } from '#db/queries/setEvaluationPhase';
import { DomainError } from '#lib/errors';
import { decidePick, decideSeal, mayPick } from '#lib/evaluation/decidePick';
import type { Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { refuse } from './refuse';
import { standingOf } from './standingOf';
import { writeEvaluation } from './writeEvaluation';

export type Pick = {
  readonly evaluationId: string;
  readonly viewer: Viewer;
  readonly slotId: string;
  readonly puppyId: string | null;
  readonly reason: string;
  readonly preference: boolean;
  /** The panel's most probable puppy for this slot, from the result the decider saw; null when it named none. */
  readonly panelsPuppyId: string | null;
};

/** One pick, in order, with who made it, why, and whether it followed the panel. */
export function makeDecision(runtime: Runtime, pick: Pick): void {
  writeEvaluation(runtime, pick.evaluationId, ({ facts, at, touchAll, note }) => {
    if (!mayPick(facts, pick.viewer, pick.slotId)) throw new DomainError('not-allowed');
    refuse(decidePick(facts, pick, standingOf(runtime, facts)));
    const by = pick.viewer.owner ? 'owner' : (facts.seats.find((seat) => seat.id === pick.viewer.seatId)?.label ?? '');
    insertDecision(runtime.db, {
      id: runtime.random.id(),
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
    note(actorOf(pick.viewer), 'decided', `place ${slot}: ${facts.puppies.find((puppy) => puppy.id === pick.puppyId)?.name ?? 'nobody'}`);
    touchAll();
  });
}

/** Takes back the last pick, on the record, while nothing is sealed. */
export function takeBackDecision(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    const { decisions } = standingOf(runtime, facts);
    const last = facts.slots.findLast((slot) => decisions.some((decision) => decision.slotId === slot.id));
    if (!last) throw new DomainError('wrong-phase');
    const empty = { slotId: last.id, puppyId: null, by: 'owner', reason: '', preference: false, followedPanel: null, at, takenBack: true } as const;
    insertDecision(runtime.db, { ...empty, id: runtime.random.id(), evaluationId });
    note('owner', 'decision-taken-back', `place ${facts.slots.indexOf(last) + 1}`);
    touchAll();
  });
}

/** Seals the record: nothing of this evaluation changes after. */
export function sealEvaluation(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideSeal(facts, standingOf(runtime, facts).decisions));
    // Its answers would come into a record that no longer changes.
    if (listLooks(runtime.db, evaluationId).some((look) => look.state !== 'revealed')) throw new DomainError('still-open');
    setEvaluationPhase(runtime.db, evaluationId, { phase: 'sealed', at });
    note('owner', 'sealed');
    touchAll();
  });
}
