import type { IncomingMessage } from 'node:http';
import { callHeader } from '#lib/contract/wire';
import { idSchema } from '#lib/contract/fields';
import { hashToken } from '../random';
import type { Context } from './context';

type Call = Pick<Context, 'runtime' | 'callId'>;

export function callIdIn({ headers }: Pick<IncomingMessage, 'headers'>): string | null {
  return idSchema.safeParse(headers[callHeader]).data ?? null;
}

/**
 * An id for what this call makes: the same when the call is repeated because its answer was lost, after a restart too (SC2).
 * Hashed, so that no call can name a thing that is there already.
 */
export function madeId({ runtime, callId }: Call): string {
  return callId === null ? runtime.random.id() : hashToken(`made ${callId}`).slice(0, 32);
}

/**
 * A session's secret: the same when the call is repeated with the same proof, so that whoever used up a link and never heard the
 * answer is let in by asking again. As hard to guess as the call's id (128 random bits of the page's), which nobody else has:
 * whoever made the link knows the link alone.
 */
export function sessionSecret({ runtime, callId }: Call, proof: string): string {
  return callId === null ? runtime.random.token() : hashToken(`session ${callId} ${proof}`);
}
