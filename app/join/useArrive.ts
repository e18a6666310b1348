'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useSyncExternalStore } from 'react';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPCClient } from '../_data/trpc';

type Client = ReturnType<typeof useTRPCClient>;

/** Takes a place, takes any secret out of the address and the history, and goes where this place belongs; stays where it has to wait. */
export function useArrive<T>(take: (client: Client, typed: T) => Promise<unknown>) {
  const client = useTRPCClient();
  const queries = useQueryClient();
  const router = useRouter();
  return useMutation({
    mutationFn: async (typed: T) => {
      await take(client, typed);
      window.history.replaceState(null, '', window.location.pathname);
      // The place is taken now, whether or not the answer to this comes: the page then asks again who it is.
      return client.session.me.query().catch(() => null);
    },
    onSuccess: (me) => {
      if (me && (me.owner || me.seat)) router.replace(homeOf(me));
      // What an earlier seat of this browser had read must not show to the next one.
      return queries.resetQueries();
    },
  });
}

/** Where a device with a place goes first. */
export function homeOf({ owner, seat }: Pick<SessionView, 'owner' | 'seat'>): string {
  return owner || !seat ? '/' : `/score?id=${seat.evaluationId}`;
}

/** The secret after the # of the address: browsers send it nowhere by themselves. Null while the page is still a static shell. */
export function useLinkToken(): string | null {
  return useSyncExternalStore(
    watch,
    () => window.location.hash.slice(1),
    () => null,
  );
}

function watch(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}
