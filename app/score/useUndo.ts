'use client';

import { useEffect, useState } from 'react';

const shownMs = 5000;

export type Undo = {
  readonly offer: { readonly words: string; readonly undo: () => void } | null;
  readonly put: (words: string, undo: () => void) => void;
  readonly clear: () => void;
};

/** One offer to undo, for five seconds. Nothing hangs on the time: the keys and the list can always change it back. */
export function useUndo(): Undo {
  const [offer, setOffer] = useState<Undo['offer']>(null);
  useEffect(() => {
    if (!offer) return;
    const timer = setTimeout(() => setOffer(null), shownMs);
    return () => clearTimeout(timer);
  }, [offer]);
  return { offer, put: (words, undo) => setOffer({ words, undo }), clear: () => setOffer(null) };
}
