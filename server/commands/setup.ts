import type { Db } from '#db/open';
import { seatHash } from '#db/queries/boundHashes';
import { insertEvaluation, listEvaluations, setShowingOrder, updateEvaluation } from '#db/queries/evaluations';
import { getLitter } from '#db/queries/litters';
import { replacePurposes, replaceSlots, savePlan } from '#db/queries/plans';
import { appendRecord, listUnbound } from '#db/queries/record';
import { saveSeat } from '#db/queries/seats';
import { getSheet, saveSheet } from '#db/queries/sheets';
import { inTransaction } from '#db/transaction';
import type { Plan } from '#lib/contract/plan';
import type { EvaluationInput, Purpose, SlotInput } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { tooManyForLesson } from '#lib/evaluation/rounds';
import { withBindings } from '#lib/proof/recordKinds';
import type { Sheet } from '#lib/sheet/sheet';
import { fullSheet, shortSheet } from '#lib/sheet/shippedSheets';
import type { Runtime } from '../runtime';
import { actorOf, type Asker, change, mustPrepare } from '../write/writeEvaluation';

type NewEvaluation = {
  readonly litterId: string;
  readonly sheetId: string;
  readonly input: EvaluationInput /** The same when it is asked again (SC2); left out for a fresh one. */;
  readonly newId?: string;
};

/** A new evaluation with what nearly every one needs: the owner's own seat, a keep with equal weights, one slot for it. */
export function createEvaluation(
  { db, random, clock }: Runtime,
  { litterId, sheetId, input, newId: id = random.id() }: NewEvaluation,
): string {
  return inTransaction(db, () => {
    const litter = getLitter(db, litterId);
    const { sheet } = getSheet(db, sheetId);
    if (listEvaluations(db).some((one) => one.id === id)) return id;
    const seatId = random.id();
    const at = clock.now();
    insertEvaluation(db, {
      ...input,
      id,
      litterId,
      sheetId,
      order: litter.puppies.map((puppy) => puppy.id),
      createdAt: at,
    });
    saveSeat(db, {
      id: seatId,
      evaluationId: id,
      owner: true,
      input: { label: 'breeder', kind: 'hands', leads: true, picks: true, interest: 'owns the litter' },
    });
    replacePurposes(db, id, [{ key: 'keep', weights: equalWeights(sheet) }]);
    replaceSlots(db, id, [
      {
        id: random.id(),
        taker: 'breeder',
        seatId,
        purpose: 'keep',
        sex: 'any',
        condition: '',
        byWhen: '',
        ifFails: '',
      },
    ]);
    appendRecord(db, {
      evaluationId: id,
      at,
      actor: 'owner',
      kind: 'evaluation-created',
      detail: withBindings(input.name, [['seat', seatHash(db, seatId)]]),
    });
    beginBinding(db, { evaluationId: id, at });
    return id;
  });
}

function equalWeights(sheet: Sheet): Record<string, number> {
  return Object.fromEntries(sheet.criteria.map((criterion) => [criterion.key, 1]));
}

/**
 * From this line on the record binds what it tells of by hash. Within the chain, so that nobody can later call an
 * evaluation older than it is, to be excused from what its lines lack.
 */
function beginBinding(db: Db, { evaluationId, at }: { readonly evaluationId: string; readonly at: number }): void {
  appendRecord(db, { evaluationId, at, actor: 'the server', kind: 'binding-begun', detail: '' });
}

/** At the start: evaluations that an earlier version made begin to be bound now; what their lines say from before stays unbound. */
export function beginBindingOfAll({ db, clock }: Pick<Runtime, 'db' | 'clock'>): void {
  inTransaction(db, () => {
    for (const evaluationId of listUnbound(db)) beginBinding(db, { evaluationId, at: clock.now() });
  });
}

type Setup = {
  readonly input: EvaluationInput;
  readonly sheetId: string;
  readonly purposes: readonly Purpose[];
  readonly slots: readonly SlotInput[];
  readonly order: readonly string[];
  readonly plan: Plan;
};

/** Saves the whole set-up page at once, before scoring: what everyone agreed to must not move under a score. */
export function saveSetup(ctx: Asker, evaluationId: string, setup: Setup): void {
  const { db, random } = ctx.runtime;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, touchAll, note } = write;
    mustPrepare(write);
    if (facts.phase !== 'preparing') throw new DomainError('wrong-phase');
    const { sheet } = getSheet(db, setup.sheetId);
    checkOrder(facts, setup.order);
    checkPurposes(setup, new Set(sheet.criteria.map((criterion) => criterion.key)));
    if (
      setup.slots.some(
        (slot) => slot.seatId !== null && !facts.seats.some((seat) => seat.id === slot.seatId && seat.picks),
      )
    ) {
      throw new DomainError('bad-input', { field: 'slots' });
    }
    updateEvaluation(db, evaluationId, { ...setup.input, sheetId: setup.sheetId });
    replacePurposes(db, evaluationId, setup.purposes);
    replaceSlots(
      db,
      evaluationId,
      setup.slots.map((slot) => ({ ...slot, id: random.id() })),
    );
    setShowingOrder(db, evaluationId, setup.order);
    checkPlan(facts, setup.plan);
    savePlan(db, evaluationId, setup.plan);
    note(actorOf(viewer), 'set-up-saved');
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
  if (kind === 'lesson' && seats.some((seat) => seat.paper)) throw new DomainError('bad-input', { field: 'plan' });
  if (tooManyForLesson(kind, seats)) throw new DomainError('lesson-seats');
}

/** Weights name criteria of the sheet, each purpose comes once and weighs something, and every slot's purpose is there. */
function checkPurposes({ purposes, slots }: Setup, criteria: ReadonlySet<string>): void {
  const keys = new Set(purposes.map((purpose) => purpose.key));
  const sound =
    keys.size === purposes.length &&
    purposes.every(
      ({ weights }) =>
        Object.keys(weights).every((key) => criteria.has(key)) && Object.values(weights).some((weight) => weight > 0),
    ) &&
    slots.every((slot) => keys.has(slot.purpose));
  if (!sound) throw new DomainError('bad-input', { field: 'purposes' });
}

/** Fixed ids, so that a built-in sheet is the same sheet in every data file. */
export const builtInSheetIds = { full: 'f0'.repeat(16), short: '5e'.repeat(16) } as const;

/** Puts the built-in sheets into a data file, or brings them up to date; evaluations under way keep their frozen copy. */
export function seedSheets({ db, clock }: Pick<Runtime, 'db' | 'clock'>): void {
  inTransaction(db, () => {
    saveSheet(db, { id: builtInSheetIds.full, builtIn: true, body: fullSheet, createdAt: clock.now() });
    saveSheet(db, { id: builtInSheetIds.short, builtIn: true, body: shortSheet, createdAt: clock.now() });
  });
}
