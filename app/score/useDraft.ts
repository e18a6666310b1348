'use client';

import { useEffect, useRef, useState } from 'react';

const pauseMs = 800;

type Draft<T> = { readonly value: T; readonly type: (value: T) => void; readonly finish: () => void };

/**
 * Typed words as an edit each time the person pauses, leaves the field, hides the page or closes the panel: nothing
 * typed is left where it could be lost. Mount it anew (a key) for another subject.
 */
export function useDraft<T>(stored: T, save: (value: T) => void): Draft<T> {
  const [typed, setTyped] = useState<{ readonly value: T } | null>(null);
  const waiting = useRef<{ readonly value: T } | null>(null);
  const latest = useRef(save);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  useEffect(() => {
    latest.current = save;
  });
  const finish = () => {
    clearTimeout(timer.current);
    if (waiting.current !== null) latest.current(waiting.current.value);
    waiting.current = null;
  };
  const finishRef = useRef(finish);
  useEffect(() => {
    const finishNow = finishRef.current;
    document.addEventListener('visibilitychange', finishNow);
    window.addEventListener('pagehide', finishNow);
    return () => {
      document.removeEventListener('visibilitychange', finishNow);
      window.removeEventListener('pagehide', finishNow);
      finishNow();
    };
  }, []);
  const type = (value: T) => {
    setTyped({ value });
    waiting.current = { value };
    clearTimeout(timer.current);
    timer.current = setTimeout(finish, pauseMs);
  };
  return { value: typed ? typed.value : stored, type, finish };
}
