'use client';

import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { io } from 'socket.io-client';
import type { LiveEvent } from '#lib/contract/liveEvent';

export type Link = {
  readonly connected: boolean;
  /** When the link was last known to be up; null before the first connection. */
  readonly lostAt: number | null;
  /** The showing the last doorbell named, ahead of the refetch. */
  readonly table: string | null;
};

/**
 * Listens for an evaluation's doorbells and refetches what they may have changed; on every (re)connection it refetches
 * all, so that a client that slept ends where a fresh load would (LV1). A doorbell carries no data.
 */
export function useLive(evaluationId: string | null): Link {
  const queries = useQueryClient();
  const [link, setLink] = useState<Link>({ connected: false, lostAt: null, table: null });
  useEffect(() => {
    if (evaluationId === null) return;
    const socket = io({ transports: ['websocket', 'polling'], reconnectionDelayMax: 2000 });
    const refresh = () => void queries.invalidateQueries();
    socket.on('connect', () => {
      setLink((before) => ({ ...before, connected: true, lostAt: null }));
      refresh();
    });
    socket.on('disconnect', () => setLink((before) => ({ ...before, connected: false, lostAt: Date.now() })));
    socket.on('connect_error', () => setLink((before) => ({ ...before, connected: false, lostAt: before.lostAt ?? Date.now() })));
    socket.on('changed', (event: LiveEvent) => {
      if (event.evaluation !== evaluationId) return;
      setLink((before) => ({ ...before, table: event.table }));
      refresh();
    });
    const wake = () => {
      if (document.visibilityState === 'visible' && !socket.connected) socket.connect();
    };
    document.addEventListener('visibilitychange', wake);
    window.addEventListener('pageshow', wake);
    return () => {
      document.removeEventListener('visibilitychange', wake);
      window.removeEventListener('pageshow', wake);
      socket.close();
    };
  }, [evaluationId, queries]);
  return link;
}
