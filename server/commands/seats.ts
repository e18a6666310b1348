import { createHash } from 'node:crypto';
import { seatHash } from '#db/queries/boundHashes';
import { revokeSeatDevices } from '#db/queries/devices';
import { getPickOrder } from '#db/queries/evaluations';
import { dropSeatLinks, insertLink } from '#db/queries/links';
import { rewordConfirmations, saveConfirmation } from '#db/queries/plans';
import { deleteSeat, listRemovedSeats, removeWords, saveSeat } from '#db/queries/seats';
import type { SeatInput } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { SeatFacts } from '#lib/evaluation/facts';
import { pickOrderWording } from '#lib/evaluation/pickOrder';
import { decideConfirm, tooManyForLesson } from '#lib/evaluation/rounds';
import { decidePaperSeat } from '#lib/evaluation/paper';
import { rightsFit } from '#lib/evaluation/seats';
import { withBindings } from '#lib/proof/recordKinds';
import { hashToken } from '../random';
import { wordsBinding } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import {
  actorOf,
  type Asker,
  change,
  mustPrepare,
  ownSeat,
  refuse,
  seatName,
  writeEvaluation,
} from '../write/writeEvaluation';

type SeatChange = {
  readonly evaluationId: string;
  readonly seatId: string | null;
  /** For one that is added: the same when it is asked again (SC2); left out for a fresh one. */
  readonly newId?: string;
  readonly input: SeatInput;
};

/**
 * Adds a seat, or changes one. While scoring a late evaluator may still be added, but what a joined seat may see and
 * touch stays as agreed. Labels are told apart on every screen, so no two are the same. An organiser leaves her own seat,
 * the owner's and everybody's rights as the owner gave them: else she could give herself the right to decide.
 */
export function savePanelSeat(
  ctx: Asker,
  { evaluationId, seatId, newId = ctx.runtime.random.id(), input }: SeatChange,
): string {
  const { runtime } = ctx;
  return change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, touchAll, note } = write;
    mustPrepare(write);
    const standing = facts.seats.find((seat) => seat.id === seatId);
    if (seatId !== null && !standing) throw new DomainError('not-found');
    if (seatId === null && facts.seats.some((seat) => seat.id === newId)) return newId;
    if (facts.phase !== 'preparing' && (standing || facts.round?.state !== 'open'))
      throw new DomainError('wrong-phase');
    // A third that scores already may still be put right, or made one without a card.
    const added = input.kind !== 'none' && (standing?.kind ?? 'none') === 'none';
    if (added && tooManyForLesson(facts.plan.kind, [...facts.seats, input])) throw new DomainError('lesson-seats');
    if (!rightsFit(input)) throw new DomainError('bad-input', { field: 'kind' });
    if (input.paper === true) refuse(decidePaperSeat(facts, standing ?? null, input));
    if (!viewer.owner && (seatId === viewer.seatId || standing?.owner === true || !sameRights(standing, input)))
      throw new DomainError('not-allowed');
    const taken = facts.seats.some(
      (seat) => seat.id !== seatId && seat.label.toLowerCase() === input.label.toLowerCase(),
    );
    if (taken || facts.seats.length >= 12) throw new DomainError('bad-input', { field: 'label' });
    const id = seatId ?? newId;
    saveSeat(runtime.db, { id, evaluationId, owner: standing?.owner ?? false, input });
    // A seat on paper has no device, and gets none by a link that was made before.
    if (input.paper === true) dropSeatLinks(runtime.db, id);
    note(
      actorOf(viewer),
      standing ? 'seat-changed' : 'seat-added',
      withBindings(seatName(id), [['seat', seatHash(runtime.db, id)]]),
    );
    touchAll();
    return id;
  });
}

/** A fresh seat begins without rights. */
function sameRights(
  standing: SeatFacts | undefined,
  { picks, organises = false, reads = false, paper = false }: SeatInput,
): boolean {
  const before = standing ?? { picks: false, organises: false, reads: false, paper: false };
  return before.picks === picks && before.organises === organises && before.reads === reads && before.paper === paper;
}

type Seat = { readonly evaluationId: string; readonly seatId: string };

/** Takes a seat that nobody has joined from the panel, before scoring. */
export function removePanelSeat(ctx: Asker, { evaluationId, seatId }: Seat): void {
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, touchAll, note } = write;
    mustPrepare(write);
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (facts.phase !== 'preparing') throw new DomainError('wrong-phase');
    if (seat.owner || seat.issued > 0 || facts.slots.some((slot) => slot.seatId === seatId))
      throw new DomainError('in-use');
    deleteSeat(ctx.runtime.db, seatId);
    note(actorOf(viewer), 'seat-removed', seatName(seat.id));
    touchAll();
  });
}

/** A fresh one-time link for a seat that nobody has held yet; the owner's own seat has none (she takes it from her session). */
export function inviteSeat(ctx: Asker, { evaluationId, seatId }: Seat): string {
  const { runtime } = ctx;
  return change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, at, touchAll, note } = write;
    mustPrepare(write);
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (seat.owner || seat.issued > 0 || seat.paper) throw new DomainError('in-use');
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    if (seat.kind !== 'none' && tooManyForLesson(facts.plan.kind, facts.seats)) throw new DomainError('lesson-seats');
    const token = runtime.random.token();
    insertLink(runtime.db, { tokenHash: hashToken(token), kind: 'seat', seatId, createdAt: at });
    note(actorOf(viewer), 'link-made', seatName(seat.id));
    touchAll();
    return token;
  });
}

/**
 * BL9: for a seat whose device is lost. The old device's session ends at once; whoever opens the new link writes for the
 * seat, reads none of its earlier answers before reveal, and every result says that the seat was reissued.
 */
export function reissueSeat(runtime: Runtime, { evaluationId, seatId }: Seat): string {
  const done = writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (seat.owner || seat.issued === 0) throw new DomainError('not-allowed');
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    const token = runtime.random.token();
    const devices = revokeSeatDevices(runtime.db, seatId, at);
    insertLink(runtime.db, { tokenHash: hashToken(token), kind: 'seat', seatId, createdAt: at });
    note('owner', 'seat-reissued', seatName(seat.id));
    touchAll();
    return { token, devices };
  });
  for (const device of done.devices) runtime.hub.dismiss(device);
  return done.token;
}

/** A party agrees, from its own seat, to the pick order as it is worded now; a later change asks again. */
export function confirmPickOrder(ctx: Asker, evaluationId: string): void {
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, at, touchAll, note } = write;
    const seat = ownSeat(write);
    refuse(decideConfirm(facts, seat));
    if (facts.confirmedSeatIds.includes(seat.id)) return;
    saveConfirmation(ctx.runtime.db, { evaluationId, seatId: seat.id, wording: pickOrderWording(facts), at });
    note(
      seatName(seat.id),
      'pick-order-confirmed',
      facts.slots.length === 1 ? '1 place' : `${facts.slots.length} places`,
    );
    touchAll();
  });
}

/**
 * Removes what names a person and what it wrote, at the word of its own seat or of the owner, between rounds. The record
 * knows seats by id, so it stands; it says that words were removed and binds what had words in it as it is from now on. What
 * the seat had committed to can no longer be made again, since its words are gone. Its sessions end with it. In an anonymous
 * panel notes stay as they were said, in the talk, on cards and on pictures: one that changed with this seat's name would name its author (BL9).
 */
export function removePerson(ctx: Asker, { evaluationId, seatId }: Seat): void {
  const { db, hub } = ctx.runtime;
  const ended = change({ ctx, id: evaluationId }, ({ facts, viewer, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (!viewer.owner && viewer.seatId !== seatId) throw new DomainError('not-allowed');
    if (facts.round && facts.round.state !== 'revealed') throw new DomainError('still-open');
    if (listRemovedSeats(db, evaluationId).has(seatId)) throw new DomainError('in-use');
    const wording = pickOrderWording(facts);
    const newLabel = `removed ${seat.position + 1}`;
    const snapshots = removeWords(db, {
      seatId,
      evaluationId,
      label: seat.label,
      newLabel,
      notesStay: facts.plan.discussion === 'anonymous',
      at,
    });
    rewordConfirmations(db, evaluationId, { from: wording, to: pickOrderWording(getPickOrder(db, evaluationId)) });
    const hashes = snapshots.map((body) => createHash('sha256').update(JSON.stringify(body)).digest('hex'));
    note(
      actorOf(viewer),
      'words-removed',
      withBindings([seatName(seatId), ...hashes].join(' '), wordsBinding(db, facts)),
    );
    touchAll();
    return seat.owner ? [] : revokeSeatDevices(db, seatId, at);
  });
  for (const device of ended) hub.dismiss(device);
}
