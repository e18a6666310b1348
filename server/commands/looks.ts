import { looksHash } from '#db/queries/boundHashes';
import {
  insertLookAnswer,
  insertLookBatch,
  listLooks,
  listLookSeats,
  type LookRow,
  revealLookBatch,
} from '#db/queries/looks';
import { DomainError } from '#lib/errors';
import {
  type AnsweredLook,
  awaitedSeats,
  decideCloseLook,
  decideOpenLook,
  type LookPair,
  type LookQuestion,
  mayAnswerLook,
} from '#lib/evaluation/decideLook';
import { withBindings } from '#lib/proof/recordKinds';
import { answersBinding } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import { actorOf, type Asker, change, ownSeat, refuse, seatName } from '../write/writeEvaluation';

type Opening = {
  readonly evaluationId: string /** Of the batch: the same when it is asked again (SC2); left out for a fresh one. */;
  readonly newId?: string;
  readonly question: LookQuestion;
};

/** Opens a batch of second looks: its pairs, their order and their sides are fixed now (BL8). */
export function openLook(
  ctx: Asker,
  { evaluationId, newId, question }: Opening,
): { readonly id: string; readonly lookIds: readonly string[] } {
  const { db, random } = ctx.runtime;
  return change({ ctx, id: evaluationId }, ({ facts, viewer, at, touchAll, note }) => {
    const earlier = listLooks(db, evaluationId);
    const id = newId ?? random.id();
    const made = earlier.filter((look) => look.batchId === id);
    if (made.length > 0) return { id, lookIds: made.map((look) => look.id) };
    const batches = new Set(earlier.filter((look) => look.slotId === question.slotId).map((look) => look.batchId)).size;
    refuse(decideOpenLook(facts, viewer, { ...question, batches }));
    const looks = question.pairs.map((pair, place) => ({ ...arranged(pair, place, earlier), id: random.id() }));
    insertLookBatch(db, { id, evaluationId, slotId: question.slotId, medium: question.medium, openedAt: at, looks });
    const name = (puppyId: string) => facts.puppies.find((one) => one.id === puppyId)?.name ?? '';
    const words = question.pairs.map((pair) => `${name(pair.firstPuppyId)} and ${name(pair.secondPuppyId)}`).join('; ');
    note(actorOf(viewer), 'look-opened', withBindings(words, [['looks', looksHash(db, id)]]));
    touchAll();
    return { id, lookIds: looks.map((look) => look.id) };
  });
}

/** A pair seen before swaps places; new pairs take turns at having their first puppy on the left. */
function arranged(
  { firstPuppyId, secondPuppyId }: LookPair,
  place: number,
  looks: readonly LookRow[],
): LookPair & { readonly firstOnLeft: boolean; readonly repeat: boolean } {
  const pair = [firstPuppyId, secondPuppyId];
  const before = looks.findLast((look) => pair.includes(look.firstPuppyId) && pair.includes(look.secondPuppyId));
  if (!before) return { firstPuppyId, secondPuppyId, firstOnLeft: place % 2 === 0, repeat: false };
  return {
    firstPuppyId: before.firstPuppyId,
    secondPuppyId: before.secondPuppyId,
    firstOnLeft: !before.firstOnLeft,
    repeat: true,
  };
}

type LookReply = {
  readonly evaluationId: string;
  readonly answer: {
    readonly id: string;
    readonly lookId: string;
    readonly choice: 'first' | 'second' | 'tie';
    readonly criterion: string | null;
    readonly madeAt: number;
  };
};

/** One seat's private answer; it may change its mind until the batch closes, which the last awaited answer does. */
export function answerLook(ctx: Asker, { evaluationId, answer }: LookReply): void {
  const { runtime, device } = ctx;
  const { db } = runtime;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, at, touchAll, touchSeat, note } = write;
    const seat = ownSeat(write);
    const look = openLookOf(runtime, evaluationId, answer.lookId);
    if (!mayAnswerLook(facts, seat, look)) throw new DomainError('not-allowed');
    if (answer.criterion !== null && !facts.sheet.criteria.some((one) => one.key === answer.criterion))
      throw new DomainError('bad-input');
    if (!insertLookAnswer(db, { ...answer, seatId: seat.id, deviceId: device.id, receivedAt: at })) return;
    touchSeat(seat.id);
    if (awaitedSeats(facts, awaitingLooks(runtime, evaluationId, look.batchId)).length > 0) return;
    revealLookBatch(db, look.batchId, at);
    note('the last answer', 'look-closed', withBindings('', answersBinding(db, look.batchId)));
    touchAll();
  });
}

/**
 * Closes the open batch with the answers there are; the record says who was still awaited, or how many. A batch that a restore
 * brought back closed takes no answer from anyone, awaits nobody and is shown as it stands.
 */
export function closeLook(
  ctx: Asker,
  { evaluationId, batchId }: { readonly evaluationId: string; readonly batchId: string },
): void {
  const { runtime } = ctx;
  change({ ctx, id: evaluationId }, ({ facts, viewer, at, touchAll, note }) => {
    const looks = awaitingLooks(runtime, evaluationId, batchId);
    refuse(decideCloseLook(facts, viewer, looks));
    revealLookBatch(runtime.db, batchId, at);
    const missing = awaitedSeats(facts, looks).map((seat) => seatName(seat.id));
    // Whose answers are missing says whose there are, which an anonymous panel tells nobody.
    const who = facts.plan.discussion === 'anonymous' ? `${missing.length} awaited` : missing.join(', ');
    note(
      actorOf(viewer),
      'look-closed',
      withBindings(missing.length > 0 ? `not answered: ${who}` : '', answersBinding(runtime.db, batchId)),
    );
    touchAll();
  });
}

function openLookOf({ db }: Runtime, evaluationId: string, lookId: string): LookRow {
  const look = listLooks(db, evaluationId).find((one) => one.id === lookId);
  if (!look) throw new DomainError('not-found');
  if (look.state !== 'open') throw new DomainError('wrong-phase');
  return look;
}

/** The looks of a batch that may still be answered; none once a restore has closed it. */
function awaitingLooks({ db }: Runtime, evaluationId: string, batchId: string): AnsweredLook[] {
  const looks = listLooks(db, evaluationId).filter((one) => one.batchId === batchId);
  if (looks.length === 0) throw new DomainError('not-found');
  if (looks.some((look) => look.state === 'revealed')) throw new DomainError('wrong-phase');
  return looks
    .filter((look) => look.state === 'open')
    .map(({ id, slotId, medium }) => ({ slotId, medium, answered: listLookSeats(db, id) }));
}
