import type { TRPCLink } from '@trpc/client';
import { observable, tap } from '@trpc/server/observable';
import type { AppRouter } from '../../server/api/router';
import { freshId } from './freshId';

/**
 * Gives every change an id before it is sent, and the same one when the very same change is sent again because no answer came:
 * what it makes is then made once, however often a person presses (SC2). An answer, a refusal too, ends the id.
 */
export function callIdLink(newId: () => string = freshId): TRPCLink<AppRouter> {
  const unanswered = new Map<string, string>();
  return () => ({ op, next }) => {
    if (op.type !== 'mutation') return next(op);
    const key = `${op.path} ${JSON.stringify(op.input)}`;
    const callId = unanswered.get(key) ?? newId();
    unanswered.set(key, callId);
    return observable((observer) =>
      next({ ...op, context: { ...op.context, callId } })
        .pipe(
          tap({
            next: () => unanswered.delete(key),
            error: ({ data }) => {
              if (data !== undefined && data !== null) unanswered.delete(key);
            },
          }),
        )
        .subscribe(observer),
    );
  };
}
