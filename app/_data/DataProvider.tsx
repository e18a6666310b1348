'use client';

import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { createTRPCClient, httpBatchLink, splitLink, type Operation, type TRPCLink } from '@trpc/client';
import { useState, type ReactNode } from 'react';
import { callHeader } from '#lib/contract/callHeader';
import type { AppRouter } from '../../server/api/router';
import { callIdLink } from './callIdLink';
import { fetchInTime } from './fetchInTime';
import { forgetLink } from './forgetLink';
import { KeptReads } from './KeptReads';
import { TRPCProvider } from './trpc';

/** A barn's network may have no internet, which a browser calls offline; the server is in the same room all the same. */
const always = { networkMode: 'always' } as const;

/** Data for every page: one query cache, one way to the server. Answers are kept in memory; three of a scoring seat's own on the device (KeptReads). */
export function DataProvider({ children }: { readonly children: ReactNode }) {
  const [queries] = useState(() => new QueryClient({ defaultOptions: { queries: { ...always, retry: retryUnlessRefused, staleTime: 5000 }, mutations: always } }));
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
    return typeof callId === 'string' ? { [callHeader]: callId } : {};
  };
  return [forgetLink, callIdLink(), splitLink({ condition: ({ type }) => type === 'mutation', true: httpBatchLink({ ...one, maxItems: 1, headers }), false: httpBatchLink(one) })];
}

/** A refusal will not change by asking again; a dropped link may. */
function retryUnlessRefused(failures: number, error: unknown): boolean {
  const refused = typeof error === 'object' && error !== null && 'data' in error && error.data !== null && error.data !== undefined;
  return !refused && failures < 3;
}
