'use client';

import { useState } from 'react';

type Remembered = { readonly words: readonly string[] | null; readonly remember: (words: readonly string[]) => void };

/** The words this browser tab confirmed last, so that a change can be pointed at; gone with the tab. */
export function useConfirmedWords(evaluationId: string): Remembered {
  const key = `evenstack.pick-order.${evaluationId}`;
  const [words, setWords] = useState(() => read(key));
  const remember = (next: readonly string[]) => {
    setWords(next);
    try {
      sessionStorage.setItem(key, JSON.stringify(next));
    } catch {
      // A browser that keeps nothing only loses the marks of what changed.
    }
  };
  return { words, remember };
}

function read(key: string): readonly string[] | null {
  try {
    const stored: unknown = JSON.parse(sessionStorage.getItem(key) ?? 'null');
    return Array.isArray(stored) && stored.every((one) => typeof one === 'string') ? stored : null;
  } catch {
    return null;
  }
}
