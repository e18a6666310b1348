import { findDevice } from '#db/queries/findDevice';
import { sessionLife } from '#lib/access/sessionLife';
import { hashToken } from '../../random';
import type { Context } from '../context';

/** Gives the browser its session for as long as it may live; a secret that stands for no device yet, for as long as a seat's. */
export function startSession({ runtime, setSession }: Pick<Context, 'runtime' | 'setSession'>, secret: string): void {
  const owner = findDevice(runtime.db, hashToken(secret))?.owner ?? false;
  setSession(secret, owner ? sessionLife.owner.whole : sessionLife.seat.whole);
}
