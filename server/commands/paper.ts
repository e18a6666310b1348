import { createHash } from 'node:crypto';
import { typedHashes } from '#db/queries/boundHashes';
import { listHeldAnswers, saveEntry } from '#db/queries/entries';
import { hasPaperCard, insertPaperCard, listPaperCards } from '#db/queries/paperCards';
import type { EntryBody } from '#lib/contract/entry';
import { DomainError } from '#lib/errors';
import { cleared } from '#lib/evaluation/cards';
import { entryField, receiveEntry } from '#lib/evaluation/entries';
import type { SeatFacts } from '#lib/evaluation/facts';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { askedFields, countAnswers, decideCard, decidePaper, decidePaperLock, sheetCodes } from '#lib/evaluation/paper';
import { withBindings } from '#lib/proof/recordKinds';
import { type Acting, type Asker, change, type EvaluationWrite, refuse, seatName } from '../write/writeEvaluation';
import { commitByServer } from '../write/commitCards';
import { putLock } from './cards';

type Card = { readonly seatId: string; readonly showingId: string; readonly bodies: readonly EntryBody[] };
type Typed = Card & {
  readonly evaluationId: string /** The same when it is asked again (SC2). */;
  readonly cardId: string;
};

/**
 * The owner types one whole card of a seat on paper; typed again it replaces the one before, field by field, and what the new one
 * leaves out is cleared. Answers nothing of what it said or says; a fault refuses all of it.
 */
export function typeCard(ctx: Asker, { evaluationId, cardId, ...card }: Typed): void {
  const { runtime, device } = ctx;
  const { db } = runtime;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, at, touchAll, note } = write;
    const { seatId, showingId, bodies } = card;
    if (hasPaperCard(db, cardId)) return;
    refuse(decidePaper(facts, viewer, seatId));
    const { round, sheet } = facts;
    const seat = facts.seats.find((one) => one.id === seatId);
    const showing = round?.showings.find((one) => one.id === showingId);
    const puppy = facts.puppies.find((one) => one.id === showing?.puppyId);
    if (!round || !seat || !puppy) throw new DomainError('not-found');
    if (puppy.withdrawn) throw new DomainError('not-eligible');
    refuse(decideCard(bodies));
    putEntries(ctx, write, { ...card, seat, cardId, roundId: round.id });
    const answers = countAnswers(askedFields({ sheet, cells: round.cells, kind: seat.kind, puppy }), bodies);
    insertPaperCard(db, { id: cardId, roundId: round.id, seatId, showingId, deviceId: device.id, answers, at });
    const code = sheetCodes(round, seatId).get(showingId) ?? '';
    note(
      'owner',
      'card-typed',
      withBindings(`${seatName(seatId)}, sheet ${code}`, [['typed', typedHashes(db, facts.id).at(-1) ?? '']]),
    );
    touchAll();
  });
}

type Put = Card & { readonly seat: SeatFacts; readonly cardId: string; readonly roundId: string };

/** The card's entries, on top of all that was said (SC3), each held to the rule of every entry; their ids follow from the card's. */
function putEntries(
  { runtime: { db }, device }: Asker,
  { facts, at }: EvaluationWrite & Acting,
  { seat, showingId, bodies, cardId, roundId }: Put,
): void {
  const held = listHeldAnswers(db, { seatId: seat.id, roundId, subjects: [showingId] });
  const fields = new Set(bodies.map(entryField));
  const gone = held
    .filter(({ field, body }) => !fields.has(field) && saysSomething(body))
    .map(({ body }) => cleared(body));
  for (const body of [...bodies, ...gone]) {
    const field = entryField(body);
    const counter = (held.find((answer) => answer.field === field)?.counter ?? 0) + 1;
    const id = createHash('sha256')
      .update(JSON.stringify([cardId, field]))
      .digest('hex')
      .slice(0, 32);
    const entry = { id, subject: showingId, counter, madeAt: at, body };
    const { outcome } = receiveEntry(
      { facts, seat, deviceId: device.id, entry },
      { seen: null, standingIn: () => null },
    );
    if (outcome.status !== 'applied')
      throw new DomainError(outcome.code === 'out-of-scale' ? 'out-of-scale' : 'bad-input');
    saveEntry(db, { entry, roundId, seatId: seat.id, deviceId: device.id, status: 'applied', receivedAt: at });
  }
}

type Lock = {
  readonly evaluationId: string;
  readonly seatId: string /** When the paper says that it was signed, in its own words; empty where it does not. */;
  readonly signedAt: string;
};

/**
 * Locks a seat on paper, by the owner's press. The seat has no device that could promise, so the server commits to its cards under
 * a nonce of its own; from here on they are bound like all others. The last awaited lock closes the round. A backup follows.
 */
export function lockPaper(ctx: Asker, { evaluationId, seatId, signedAt }: Lock): void {
  const { runtime } = ctx;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, at } = write;
    const typed = facts.round
      ? listPaperCards(runtime.db, facts.round.id).filter((card) => card.seatId === seatId)
      : [];
    refuse(decidePaperLock(facts, viewer, { seatId, typed: new Set(typed.map(({ showingId }) => showingId)) }));
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!facts.round || !seat) throw new DomainError('not-found');
    commitByServer(runtime, { round: facts.round, seat, at });
    write.note('owner', 'paper-locked', `${seatName(seatId)}${signedAt === '' ? '' : `, signed ${signedAt}`}`);
    putLock(runtime, write, seat);
  });
  runtime.backups.ask();
}
