import { getSheet } from '#db/queries/getSheet';
import { savePlan } from '#db/queries/savePlan';
import { replacePurposes } from '#db/queries/replacePurposes';
import { replaceSlots } from '#db/queries/replaceSlots';
import { setShowingOrder } from '#db/queries/setShowingOrder';
import { updateEvaluation } from '#db/queries/updateEvaluation';
import type { Plan } from '#lib/contract/plan';
import type { EvaluationInput, Purpose, SlotInput } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { tooManyForLesson } from '#lib/evaluation/lessonSeats';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type Setup = {
  readonly input: EvaluationInput;
  readonly sheetId: string;
  readonly purposes: readonly Purpose[];
  readonly slots: readonly SlotInput[];
  readonly order: readonly string[];
  readonly plan: Plan;
  /** Who saves, as the record names it; left out for the owner. */
  readonly actor?: string;
};

/** Saves the whole set-up page at once, before scoring: what everyone agreed to must not move under a score. */
export function saveSetup(runtime: Runtime, evaluationId: string, setup: Setup): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    if (facts.phase !== 'preparing') throw new DomainError('wrong-phase');
    const { sheet } = getSheet(db, setup.sheetId);
    checkOrder(facts, setup.order);
    checkPurposes(setup, new Set(sheet.criteria.map((criterion) => criterion.key)));
    if (setup.slots.some((slot) => slot.seatId !== null && !facts.seats.some((seat) => seat.id === slot.seatId && seat.picks))) {
      throw new DomainError('bad-input', { field: 'slots' });
    }
    updateEvaluation(db, evaluationId, { ...setup.input, sheetId: setup.sheetId });
    replacePurposes(db, evaluationId, setup.purposes);
    replaceSlots(db, evaluationId, setup.slots.map((slot) => ({ ...slot, id: random.id() })));
    setShowingOrder(db, evaluationId, setup.order);
    checkPlan(facts, setup.plan);
    savePlan(db, evaluationId, setup.plan);
    note(setup.actor ?? 'owner', 'set-up-saved');
    touchAll();
  });
}

function checkOrder(facts: EvaluationFacts, order: readonly string[]): void {
  const known = new Set(facts.puppies.map((puppy) => puppy.id));
  const sound = new Set(order).size === order.length && order.every((id) => known.has(id));
  if (!sound) throw new DomainError('bad-input', { field: 'order' });
}

/** A lesson names whose cards are compared, and has no third; a panel names nobody. */
function checkPlan({ seats }: EvaluationFacts, { kind, learnerSeatId }: Plan): void {
  const learner = seats.find((seat) => seat.id === learnerSeatId && seat.kind !== 'none');
  const sound = kind === 'lesson' ? learner !== undefined : learnerSeatId === null;
  if (!sound) throw new DomainError('bad-input', { field: 'plan' });
  if (tooManyForLesson(kind, seats)) throw new DomainError('lesson-seats');
}

/** Weights name criteria of the sheet, each purpose comes once and weighs something, and every slot's purpose is there. */
function checkPurposes({ purposes, slots }: Setup, criteria: ReadonlySet<string>): void {
  const keys = new Set(purposes.map((purpose) => purpose.key));
  const sound =
    keys.size === purposes.length &&
    purposes.every(({ weights }) => Object.keys(weights).every((key) => criteria.has(key)) && Object.values(weights).some((weight) => weight > 0)) &&
    slots.every((slot) => keys.has(slot.purpose));
  if (!sound) throw new DomainError('bad-input', { field: 'purposes' });
}
