'use client';

import { useEffect, useState } from 'react';

/**
 * False for a moment after what stands here has changed, so that a press meant for what stood here before does nothing.
 * `before` is what is taken to have stood here at first; left out, what is first seen counts as settled.
 */
export function useSettled(what: string, ms: number, before = what): boolean {
  const [known, setKnown] = useState(before);
  useEffect(() => {
    if (known === what) return;
    const timer = setTimeout(() => setKnown(what), ms);
    return () => clearTimeout(timer);
  }, [known, what, ms]);
  return known === what;
}
