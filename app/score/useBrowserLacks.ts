'use client';

import { useSyncExternalStore } from 'react';

const sleep = 'The screen may go to sleep while you score: at a plain http address the browser lets no page hold it awake.';
const reload = 'Keep this page open while there is no link: here it cannot be loaded anew without one.';
const lists = { none: [], sleep: [sleep], reload: [reload], both: [sleep, reload] } as const;

/** What this browser withholds at this address, in words. */
export function useBrowserLacks(): readonly string[] {
  return useSyncExternalStore(
    () => () => undefined,
    () => lists[lacking()],
    () => lists.none,
  );
}

function lacking(): keyof typeof lists {
  const awake = 'wakeLock' in navigator;
  const kept = 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null;
  if (awake) return kept ? 'none' : 'reload';
  return kept ? 'sleep' : 'both';
}
