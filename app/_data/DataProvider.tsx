'use client';

import { QueryClient, QueryClientProvider, useQueryClient } from '@tanstack/react-query';
import { createTRPCClient, httpBatchLink, type Operation, splitLink, type TRPCLink } from '@trpc/client';
import { observable, tap } from '@trpc/server/observable';
import { type ReactNode, useEffect, useState } from 'react';
import { callHeader, protocolHeader, protocolVersion } from '#lib/contract/wire';
import type { AppRouter } from '#server/api/router';
import { fetchInTime } from './fetchInTime';
import { freshId } from './freshId';
import { keepReads } from './keepReads';
import { tellOtherPages } from './otherPages';
import { forgetOwnData, forgetReads } from './ownData';
import { TRPCProvider, useTRPC } from './trpc';

/** A barn's network may have no internet, which a browser calls offline; the server is in the same room all the same. */
const always = { networkMode: 'always' } as const;

/** Data for every page: one query cache, one way to the server. Answers are kept in memory; three of a scoring seat's own on the device (KeptReads). */
export function DataProvider({ children }: { readonly children: ReactNode }) {
  const [queries] = useState(
    () =>
      new QueryClient({
        defaultOptions: { queries: { ...always, retry: retryUnlessRefused, staleTime: 5000 }, mutations: always },
      }),
  );
  const [client] = useState(() => createTRPCClient<AppRouter>({ links: linksTo('/api/trpc') }));
  return (
    <QueryClientProvider client={queries}>
      <TRPCProvider trpcClient={client} queryClient={queries}>
        <KeptReads />
        {children}
      </TRPCProvider>
    </QueryClientProvider>
  );
}

/** Reads go out together; a change goes alone, under its own id. */
function linksTo(url: string): TRPCLink<AppRouter>[] {
  const one = { url, fetch: fetchInTime };
  const headers = ({ opList }: { readonly opList: readonly Operation[] }) => {
    const callId = opList[0]?.context['callId'];
    return {
      [protocolHeader]: String(protocolVersion),
      ...(typeof callId === 'string' ? { [callHeader]: callId } : {}),
    };
  };
  return [
    forgetLink,
    callIdLink(),
    splitLink({
      condition: ({ type }) => type === 'mutation',
      true: httpBatchLink({ ...one, maxItems: 1, headers }),
      false: httpBatchLink(one),
    }),
  ];
}

/** A refusal will not change by asking again; a dropped link may. */
function retryUnlessRefused(failures: number, error: unknown): boolean {
  const refused =
    typeof error === 'object' && error !== null && 'data' in error && error.data !== null && error.data !== undefined;
  return !refused && failures < 3;
}

/** Draws nothing: keeps the seat's own reads on this device while the page lives. */
function KeptReads() {
  const trpc = useTRPC();
  const queries = useQueryClient();
  useEffect(() => keepReads({ queries, trpc, now: () => Date.now(), onLeft: leave }), [queries, trpc]);
  return null;
}

/** Nothing of the seat may stay on this screen. */
function leave(): void {
  window.location.replace('/');
}

/**
 * Gives every change an id before it is sent, and the same one when the very same change is sent again because no answer came:
 * what it makes is then made once, however often a person presses (SC2). An answer, a refusal too, ends the id.
 */
export function callIdLink(newId: () => string = freshId): TRPCLink<AppRouter> {
  const unanswered = new Map<string, string>();
  return () =>
    ({ op, next }) => {
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

const seatChanges: ReadonlySet<string> = new Set([
  'session.join',
  'session.joinByCode',
  'session.signIn',
  'session.leave',
  'demo.enter',
  'demo.sitIn',
]);

/**
 * Whoever sits down at this browser, or leaves it, by whatever page: what an earlier seat had read is forgotten before
 * the page hears that it is done; on leaving, everything of the seat is, in this browser's other pages too.
 */
const forgetLink: TRPCLink<AppRouter> =
  () =>
  ({ op, next }) =>
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
          void forgotten
            .catch(() => undefined)
            .then(() => {
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
