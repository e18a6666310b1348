'use client';

import { useSyncExternalStore } from 'react';

/** The secret after the # of the address: browsers send it nowhere by themselves. Null while the page is still a static shell. */
export function useLinkToken(): string | null {
  return useSyncExternalStore(watch, () => window.location.hash.slice(1), () => null);
}

function watch(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}
