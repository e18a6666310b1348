import { agreedHash, termsHash, withdrawalHashes } from '#db/queries/boundHashes';
import { voidCommitments } from '#db/queries/commitments';
import { listDecisions } from '#db/queries/decisions';
import { deleteWithdrawal, insertWithdrawal, setEvaluationPhase, setTableShowing } from '#db/queries/evaluations';
import { listPaperCards } from '#db/queries/paperCards';
import { insertRound, setRoundState, voidLocks } from '#db/queries/rounds';
import type { Cell } from '#lib/contract/plan';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { unconfirmedParties } from '#lib/evaluation/pickOrder';
import {
  decideClose,
  decideMoveTable,
  decideOpenRound,
  decideOpenSecond,
  decideReopen,
  decideWithdrawal,
} from '#lib/evaluation/rounds';
import { seatState } from '#lib/evaluation/seats';
import { repeatShowing } from '#lib/evaluation/showingOrders';
import { withBindings } from '#lib/proof/recordKinds';
import { revealClosed } from '../reveal/revealRound';
import type { Runtime } from '../runtime';
import { publishCommitments } from '../write/commitCards';
import { type Asker, change, refuse, seatName, writeEvaluation } from '../write/writeEvaluation';

type Opening = {
  readonly evaluationId: string /** True to open although a party has not agreed to the pick order. */;
  readonly unconfirmed: boolean;
};

/** Opens the first round, or the lesson's: one showing per puppy in the agreed order; from here on sheet, weights and pick order stand. */
export function openRound(runtime: Runtime, { evaluationId, unconfirmed }: Opening): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideOpenRound(facts, unconfirmed));
    const showings = showingsOf(runtime, facts);
    const first = showings[0];
    if (!first) throw new DomainError('bad-input');
    const occasion = facts.plan.kind === 'lesson' ? 'lesson' : 'first';
    const roundId = random.id();
    insertRound(db, {
      id: roundId,
      evaluationId,
      termsNonce: random.id(),
      occasion,
      medium: facts.medium,
      frozenSheet: JSON.stringify(facts.sheet),
      openedAt: at,
      showings,
      cells: [],
    });
    setTableShowing(db, evaluationId, facts.medium === 'table' ? first.id : null);
    setEvaluationPhase(db, evaluationId, { phase: 'scoring', at });
    const missing = unconfirmedParties(facts).map((seat) => seat.label);
    const words =
      missing.length > 0
        ? `pick order not confirmed by: ${missing.join(', ')}`
        : `${new Set(showings.map((showing) => showing.puppyId)).size} puppies`;
    note(
      'owner',
      'round-opened',
      withBindings(words, [
        ['terms', termsHash(db, roundId)],
        ['agreed', agreedHash(db, roundId)],
      ]),
    );
    touchAll();
  });
}

function showingsOf({ random }: Runtime, facts: EvaluationFacts): { id: string; puppyId: string; repeat: boolean }[] {
  const present = facts.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id);
  const listed = facts.order.filter((id) => present.includes(id));
  const order = [...listed, ...present.filter((id) => !listed.includes(id))];
  const again = facts.plan.silentRepeat ? repeatShowing(order, random.id()) : null;
  const all = [
    ...order.map((puppyId) => ({ puppyId, repeat: false })),
    ...(again === null ? [] : [{ puppyId: again, repeat: true }]),
  ];
  return all.map((showing) => ({ ...showing, id: random.id() }));
}

/** The owner ends scoring: seats that have not locked stand as they are, and the record says which. */
export function closeRound(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideClose(facts));
    if (!facts.round) throw new DomainError('wrong-phase');
    setRoundState(runtime.db, facts.round.id, { from: 'open', to: 'closed', at });
    const open = facts.seats
      .filter((seat) => seat.kind !== 'none' && seatState(seat) !== 'locked')
      .map((seat) => seatName(seat.id));
    note('owner', 'round-closed', open.length > 0 ? `not locked: ${open.join(', ')}` : '');
    publishCommitments(runtime, facts, { at, note });
    // A lesson is shown as it closes, as at the mentor's lock.
    if (facts.round.occasion === 'lesson') revealClosed(runtime, { facts, at, note, actor: 'owner' });
    touchAll();
  });
}

/**
 * Before reveal only, and on the record: every lock and every commitment is void and every seat locks anew (BL7). Only the owner's stands once she has typed
 * a card from paper in this round: who has seen another's card scores no more.
 */
export function reopenRound(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideReopen(facts));
    if (!facts.round) throw new DomainError('wrong-phase');
    setRoundState(runtime.db, facts.round.id, { from: 'closed', to: 'open', at });
    const typed = listPaperCards(runtime.db, facts.round.id).length > 0;
    const standing = facts.seats.find((seat) => typed && seat.owner && seat.lockedAt !== null)?.id ?? null;
    voidLocks(runtime.db, facts.round.id, standing);
    voidCommitments(runtime.db, { roundId: facts.round.id, standing, at });
    note(
      'owner',
      'round-reopened',
      standing === null ? '' : `but for ${seatName(standing)}, whose lock stands: cards were typed from paper`,
    );
    touchAll();
  });
}

/** Opens the second round, blind again: the cells that were talked about and no other, puppies in the order of the first. */
export function openSecondRound(
  runtime: Runtime,
  { evaluationId, cells }: { readonly evaluationId: string; readonly cells: readonly Cell[] },
): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideOpenSecond(facts, cells, listDecisions(db, evaluationId)));
    const asked = new Set(cells.map((cell) => cell.puppyId));
    const order = (facts.round?.showings ?? []).filter((showing) => !showing.repeat && asked.has(showing.puppyId));
    const showings = order.map(({ puppyId }) => ({ id: random.id(), puppyId, repeat: false }));
    const [first] = showings;
    if (!first || !facts.round) throw new DomainError('bad-input');
    const { medium } = facts.round;
    const roundId = random.id();
    insertRound(db, {
      id: roundId,
      evaluationId,
      termsNonce: random.id(),
      occasion: 'second',
      medium,
      frozenSheet: null,
      openedAt: at,
      showings,
      cells,
    });
    setTableShowing(db, evaluationId, medium === 'table' ? first.id : null);
    note(
      'owner',
      'second-round-opened',
      withBindings(`${cells.length} scores asked again`, [
        ['terms', termsHash(db, roundId)],
        ['agreed', agreedHash(db, roundId)],
      ]),
    );
    touchAll();
  });
}

type Withdrawal = { readonly evaluationId: string; readonly puppyId: string; readonly reason: string };

/** Takes a puppy out of this evaluation, before anything is revealed; what was scored of it stays in the history. Asked again, nothing changes. */
export function withdrawPuppy(runtime: Runtime, { evaluationId, puppyId, reason }: Withdrawal): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const refusal = decideWithdrawal(facts, puppyId, true);
    if (refusal) throw new DomainError(refusal);
    const puppy = facts.puppies.find((one) => one.id === puppyId);
    if (!puppy || puppy.withdrawn) return;
    insertWithdrawal(runtime.db, { evaluationId, puppyId, reason, at });
    note(
      'owner',
      'puppy-withdrawn',
      withBindings(`${puppy.name}: ${reason}`, [
        ['withdrawal', withdrawalHashes(runtime.db, evaluationId).at(-1) ?? ''],
      ]),
    );
    touchAll();
  });
}

/** Brings a withdrawn puppy back, before anything is revealed, with all that was scored of it; the record keeps both lines. Asked again, nothing changes. */
export function bringBackPuppy(runtime: Runtime, { evaluationId, puppyId }: Omit<Withdrawal, 'reason'>): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const refusal = decideWithdrawal(facts, puppyId, false);
    if (refusal) throw new DomainError(refusal);
    const puppy = facts.puppies.find((one) => one.id === puppyId);
    if (!puppy?.withdrawn) return;
    const before = withdrawalHashes(runtime.db, evaluationId);
    deleteWithdrawal(runtime.db, { evaluationId, puppyId });
    const left = new Set(withdrawalHashes(runtime.db, evaluationId));
    note(
      'owner',
      'puppy-brought-back',
      withBindings(puppy.name, [['withdrawal', before.find((hash) => !left.has(hash)) ?? '']]),
    );
    touchAll();
  });
}

type Move = { readonly evaluationId: string; readonly showingId: string };

/** The table person says who is up; every device follows. */
export function moveTable(ctx: Asker, { evaluationId, showingId }: Move): void {
  change({ ctx, id: evaluationId }, ({ facts, viewer, touchAll }) => {
    refuse(decideMoveTable(facts, viewer, showingId));
    setTableShowing(ctx.runtime.db, evaluationId, showingId);
    touchAll();
  });
}
