'use client';

import { useEffect, useSyncExternalStore } from 'react';

/** held: this browser can open the pages without the server. none: it cannot, at this address or at all. */
type ShellStanding = 'starting' | 'held' | 'none';

const patienceMs = 30_000;
const listeners = new Set<() => void>();
let standing: ShellStanding = 'starting';
let asked = false;

/** Has the shell kept on this device, where the browser allows it: at https and on the machine itself. */
export function useKeepShell(): void {
  useEffect(() => {
    if (asked) return;
    asked = true;
    void keepShell();
  }, []);
}

export function useShellStanding(): ShellStanding {
  return useSyncExternalStore(
    subscribe,
    () => standing,
    () => 'starting',
  );
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function settle(next: ShellStanding): void {
  standing = next;
  for (const listener of listeners) listener();
}

async function keepShell(): Promise<void> {
  if (!('serviceWorker' in navigator) || process.env.NODE_ENV !== 'production') {
    settle('none');
    return;
  }
  // Installing that goes wrong is not reported to the page: it then simply never gets ready.
  const timer = setTimeout(() => settle('none'), patienceMs);
  try {
    await navigator.serviceWorker.register('/serviceWorker.js', { updateViaCache: 'none' });
    await navigator.serviceWorker.ready;
    settle('held');
  } catch {
    settle('none');
  } finally {
    clearTimeout(timer);
  }
}
