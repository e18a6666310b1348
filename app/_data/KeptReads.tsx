'use client';

import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { keepReads } from './keepReads';
import { useTRPC } from './trpc';

/** Draws nothing: keeps the seat's own reads on this device while the page lives. */
export function KeptReads() {
  const trpc = useTRPC();
  const queries = useQueryClient();
  useEffect(() => keepReads({ queries, trpc, now: () => Date.now(), onLeft: leave }), [queries, trpc]);
  return null;
}

/** Nothing of the seat may stay on this screen. */
function leave(): void {
  window.location.replace('/');
}
