'use client';

import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState, type Dispatch, type SetStateAction } from 'react';
import { io, type Socket } from 'socket.io-client';
import type { LiveEvent } from '#lib/contract/liveEvent';

export type Link = {
  readonly connected: boolean;
  /** When the link was last known to be up; null before the first attempt has ended. */
  readonly lostAt: number | null;
  /** The showing the last doorbell named, ahead of the refetch. */
  readonly table: string | null;
};

/** Short, so that a device is back within five seconds of its link, whatever the attempt under way hangs on. */
const attempts = { timeout: 2500, reconnectionDelay: 500, reconnectionDelayMax: 1500 } as const;
/** How long a page that woke may take to connect anew before it says that there is no link. */
const wakingMs = 3000;

/**
 * Listens for an evaluation's doorbells and refetches what they may have changed; on every (re)connection it refetches
 * all, so that a client that slept ends where a fresh load would (LV1). A doorbell carries no data.
 */
export function useLive(evaluationId: string | null): Link {
  const queries = useQueryClient();
  const [link, setLink] = useState<Link>({ connected: false, lostAt: null, table: null });
  useEffect(() => {
    if (evaluationId === null) return;
    const refresh = () => void queries.invalidateQueries();
    const socket = io({ transports: ['websocket', 'polling'], tryAllTransports: true, ...attempts });
    const lost = followLink(socket, setLink);
    socket.on('connect', refresh);
    // The server ends a socket when its session ends: asking again says so on the screen.
    socket.on('disconnect', (reason) => {
      if (reason === 'io server disconnect') refresh();
    });
    socket.on('changed', (event: LiveEvent) => {
      if (event.evaluation !== evaluationId) return;
      setLink((before) => ({ ...before, table: event.table }));
      refresh();
    });
    const sleepless = wakeWithPage(socket, lost);
    return () => {
      sleepless();
      socket.close();
    };
  }, [evaluationId, queries]);
  return link;
}

/** Keeps the state of the link; returns the way to say that it is lost. A ping is the server's: silence ends in a disconnect. */
function followLink(socket: Socket, setLink: Dispatch<SetStateAction<Link>>): () => void {
  let heardAt: number | null = null;
  const heard = () => {
    heardAt = Date.now();
  };
  const lost = () =>
    setLink((before) => ({ ...before, connected: false, lostAt: before.lostAt ?? heardAt ?? Date.now() }));
  socket.io.on('ping', heard);
  socket.on('changed', heard);
  socket.on('connect', () => {
    heard();
    setLink((before) => ({ ...before, connected: true, lostAt: null }));
  });
  socket.on('disconnect', (reason) => {
    if (reason !== 'io client disconnect') lost();
  });
  socket.on('connect_error', lost);
  return lost;
}

/** A page that slept cannot tell a dead link from a quiet one: it takes it for dead and connects anew. Returns the way to stop. */
function wakeWithPage(socket: Socket, lost: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const renew = () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      if (!socket.connected) lost();
    }, wakingMs);
    socket.disconnect().connect();
  };
  const shown = () => {
    if (document.visibilityState === 'visible') renew();
  };
  const restored = (event: PageTransitionEvent) => {
    if (event.persisted) renew();
  };
  const online = () => {
    if (!socket.connected) renew();
  };
  document.addEventListener('visibilitychange', shown);
  window.addEventListener('pageshow', restored);
  window.addEventListener('online', online);
  return () => {
    clearTimeout(timer);
    document.removeEventListener('visibilitychange', shown);
    window.removeEventListener('pageshow', restored);
    window.removeEventListener('online', online);
  };
}
