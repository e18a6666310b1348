'use client';

import { useSyncExternalStore } from 'react';

const query = '(min-width: 1000px)';

/** True on a screen wide enough for lists beside the work. False while a page is still a static shell. */
export function useWide(): boolean {
  return useSyncExternalStore(
    watch,
    () => window.matchMedia(query).matches,
    () => false,
  );
}

function watch(changed: () => void): () => void {
  const list = window.matchMedia(query);
  list.addEventListener('change', changed);
  return () => list.removeEventListener('change', changed);
}
