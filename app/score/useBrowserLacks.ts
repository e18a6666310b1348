'use client';

import { useSyncExternalStore } from 'react';
import { useShellStanding } from '../offline/useShell';

const sleep = 'The screen may go to sleep while you score: at a plain http address the browser lets no page hold it awake.';
const reload = 'Keep this page open while there is no link: here it cannot be loaded anew without one.';

/** What this browser withholds at this address, in words. */
export function useBrowserLacks(): readonly string[] {
  const shell = useShellStanding();
  const awake = useSyncExternalStore(
    () => () => undefined,
    () => 'wakeLock' in navigator,
    () => true,
  );
  return [...(awake ? [] : [sleep]), ...(shell === 'none' ? [reload] : [])];
}
