import type { Answer, EntryBody } from '../contract/entry';
import type { DomainErrorCode } from '../errors';
import { entryField } from './entries';
import type { EvaluationFacts, SeatFacts } from './facts';
import { saysSomething } from './ownAnswers';

export type Cards = {
  readonly roundId: string;
  readonly seatId: string;
  readonly answers: readonly { readonly subject: string; readonly body: EntryBody }[];
};

/**
 * One text for one seat's answers of one round, whatever their order. A commitment is SHA-256 over the 16 bytes of its
 * nonce followed by this text in UTF-8.
 *
 * Lines end in LF, the last one has none. The first is `["cards",1,round,seat]`; then one line an answer, sorted by UTF-16
 * code units: a JSON array without blanks of subject, field and what was said, in the order below; typing is trimmed, as it
 * is when it is taken in. JSON as ECMAScript's JSON.stringify writes it, so a line break in a note is `\n`.
 */
export function canonicalCards({ roundId, seatId, answers }: Cards): string {
  const lines = answers.map(({ subject, body }) => JSON.stringify([subject, entryField(body), ...said(body)]));
  return [JSON.stringify(['cards', 1, roundId, seatId]), ...lines.toSorted()].join('\n');
}

function said(body: EntryBody): (string | number | boolean | null)[] {
  switch (body.kind) {
    case 'score':
    case 'free':
    case 'overall':
      return [body.value, body.cannotJudge];
    case 'check':
      return [body.answer, body.detail.trim()];
    case 'note':
      return [body.text.trim()];
    case 'manner':
      return [body.manner];
    case 'fair':
      return [body.fair, body.why.trim()];
    case 'choice':
      return [body.puppy, body.reason.trim(), body.chance];
  }
}

/** Two showings whose cards are to change places: after a collar swap each was scored as the other puppy. */
export type CardMove = { readonly from: string; readonly to: string };

/** Whether a seat may let two of its own cards change places now: before its lock, in an open round about the whole sheet. */
export function decideCardMove(
  { round, puppies }: EvaluationFacts,
  seat: SeatFacts,
  { from, to }: CardMove,
): DomainErrorCode | null {
  if (seat.kind === 'none') return 'not-allowed';
  if (round?.state !== 'open' || round.cells !== null || seat.lockedAt !== null) return 'wrong-phase';
  const [one, other] = [from, to].map((id) => round.showings.find((showing) => showing.id === id)?.puppyId);
  if (one === undefined || other === undefined) return 'not-found';
  if (one === other) return 'bad-input';
  return puppies.some((puppy) => puppy.withdrawn && (puppy.id === one || puppy.id === other)) ? 'not-eligible' : null;
}

/** An answer in force, with the device that made it. */
export type HeldAnswer = Answer & { readonly deviceId: string };

/** What is put in force instead; appended to the history like every edit. */
type SwappedAnswer = Pick<HeldAnswer, 'subject' | 'field' | 'counter' | 'body' | 'deviceId'>;

type Side = { readonly subject: string; readonly bitch: boolean };

/**
 * What two cards of one seat say after they have changed places, register by register: each answer stands under the
 * other subject, and is cleared where the other card said nothing. Counters go up, so that it is the newest edit. An
 * answer stays that of the device that made it, so that a reissued seat's new device reads no more than before (BL9).
 * What was said of a dog's testicles goes to no bitch.
 */
export function swapCards(held: readonly HeldAnswer[], one: Side, other: Side): readonly SwappedAnswer[] {
  const fields = [
    ...new Set(
      held.filter(({ subject }) => subject === one.subject || subject === other.subject).map(({ field }) => field),
    ),
  ].toSorted();
  return fields.flatMap((field) => {
    const find = ({ subject }: Side) => held.find((answer) => answer.subject === subject && answer.field === field);
    return [...put(find(one), find(other), other), ...put(find(other), find(one), one)];
  });
}

function put(source: HeldAnswer | undefined, standing: HeldAnswer | undefined, to: Side): SwappedAnswer[] {
  const moves = source && !(to.bitch && source.field === 'check:testicles') ? source : undefined;
  const shape = moves ?? standing ?? source;
  if (!shape || (!moves && !saysSomething(standing?.body ?? null))) return [];
  const { deviceId, field } = shape;
  return [
    {
      subject: to.subject,
      field,
      counter: (standing?.counter ?? 0) + 1,
      body: moves ? moves.body : cleared(shape.body),
      deviceId,
    },
  ];
}

/** The same register with nothing said in it. */
export function cleared(body: EntryBody): EntryBody {
  switch (body.kind) {
    case 'score':
    case 'free':
    case 'overall':
      return { ...body, value: null, cannotJudge: false };
    case 'check':
      return { ...body, answer: null, detail: '' };
    case 'note':
      return { ...body, text: '' };
    case 'manner':
      return { ...body, manner: null };
    case 'fair':
      return { ...body, fair: true, why: '' };
    case 'choice':
      return { ...body, puppy: null, reason: '', chance: null };
  }
}
