import type { TRPCLink } from '@trpc/client';
import { observable } from '@trpc/server/observable';
import type { AppRouter } from '../../server/api/router';
import { tellOtherPages } from './otherPages';
import { forgetOwnData, forgetReads } from './ownData';

const seatChanges: ReadonlySet<string> = new Set(['session.join', 'session.joinByCode', 'session.signIn', 'session.leave', 'demo.enter', 'demo.sitIn']);

/**
 * Whoever sits down at this browser, or leaves it, by whatever page: what an earlier seat had read is forgotten before
 * the page hears that it is done; on leaving, everything of the seat is, in this browser's other pages too.
 */
export const forgetLink: TRPCLink<AppRouter> = () => ({ op, next }) =>
  observable((observer) => {
    const leaves = op.path === 'session.leave';
    const changesSeat = seatChanges.has(op.path);
    return next(op).subscribe({
      next: (value) => {
        if (!changesSeat) {
          observer.next(value);
          return;
        }
        if (leaves) tellOtherPages('left');
        const forgotten = leaves ? forgetOwnData() : forgetReads();
        // A device that cannot be written holds nothing that could be forgotten.
        void forgotten.catch(() => undefined).then(() => {
          observer.next(value);
          observer.complete();
        });
      },
      error: (error) => observer.error(error),
      complete: () => {
        if (!changesSeat) observer.complete();
      },
    });
  });
