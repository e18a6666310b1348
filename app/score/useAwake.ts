'use client';

import { useEffect } from 'react';

/** Holds the screen awake while somebody scores, and asks the browser not to clear the device's store. Both may be refused; "Before you start" says so. */
export function useAwake(active: boolean): void {
  useEffect(() => {
    if (!active || !('wakeLock' in navigator)) return;
    let held: WakeLockSentinel | null = null;
    let over = false;
    const hold = async () => {
      if (document.visibilityState !== 'visible') return;
      try {
        held = await navigator.wakeLock.request('screen');
        if (over) await held.release();
      } catch {
        held = null;
      }
    };
    const again = () => void hold();
    again();
    void navigator.storage.persist().catch(() => false);
    document.addEventListener('visibilitychange', again);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }, [active]);
}
