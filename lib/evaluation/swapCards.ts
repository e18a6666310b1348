import type { Answer, EntryBody } from '../contract/entry';
import { saysSomething } from './ownAnswers';

/** An answer in force, with the device that made it. */
export type HeldAnswer = Answer & { readonly deviceId: string };

/** What is put in force instead; appended to the history like every edit. */
export type SwappedAnswer = Pick<HeldAnswer, 'subject' | 'field' | 'counter' | 'body' | 'deviceId'>;

type Side = { readonly subject: string; readonly bitch: boolean };

/**
 * What two cards of one seat say after they have changed places, register by register: each answer stands under the
 * other subject, and is cleared where the other card said nothing. Counters go up, so that it is the newest edit. An
 * answer stays that of the device that made it, so that a reissued seat's new device reads no more than before (BL9).
 * What was said of a dog's testicles goes to no bitch.
 */
export function swapCards(held: readonly HeldAnswer[], one: Side, other: Side): readonly SwappedAnswer[] {
  const fields = [...new Set(held.filter(({ subject }) => subject === one.subject || subject === other.subject).map(({ field }) => field))].toSorted();
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
  return [{ subject: to.subject, field, counter: (standing?.counter ?? 0) + 1, body: moves ? moves.body : cleared(shape.body), deviceId }];
}

function cleared(body: EntryBody): EntryBody {
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
