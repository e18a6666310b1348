'use client';

import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { createTRPCClient, httpBatchLink } from '@trpc/client';
import { useState, type ReactNode } from 'react';
import type { AppRouter } from '../../server/api/router';
import { fetchInTime } from './fetchInTime';
import { forgetLink } from './forgetLink';
import { KeptReads } from './KeptReads';
import { TRPCProvider } from './trpc';

/** A barn's network may have no internet, which a browser calls offline; the server is in the same room all the same. */
const always = { networkMode: 'always' } as const;

/** Data for every page: one query cache, one way to the server. Answers are kept in memory; three of a scoring seat's own on the device (KeptReads). */
export function DataProvider({ children }: { readonly children: ReactNode }) {
  const [queries] = useState(() => new QueryClient({ defaultOptions: { queries: { ...always, retry: retryUnlessRefused, staleTime: 5000 }, mutations: always } }));
  const [client] = useState(() => createTRPCClient<AppRouter>({ links: [forgetLink, httpBatchLink({ url: '/api/trpc', fetch: fetchInTime })] }));
  return (
    <QueryClientProvider client={queries}>
      <TRPCProvider trpcClient={client} queryClient={queries}>
        <KeptReads />
        {children}
      </TRPCProvider>
    </QueryClientProvider>
  );
}

/** A refusal will not change by asking again; a dropped link may. */
function retryUnlessRefused(failures: number, error: unknown): boolean {
  const refused = typeof error === 'object' && error !== null && 'data' in error && error.data !== null && error.data !== undefined;
  return !refused && failures < 3;
}
