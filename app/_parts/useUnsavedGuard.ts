'use client';

import { useEffect } from 'react';

const question = 'What you typed here is not saved yet. Leave without saving?';

/** While `unsaved`, asks before the tab closes, reloads or follows a link of the app. */
export function useUnsavedGuard(unsaved: boolean): void {
  useEffect(() => {
    if (!unsaved) return;
    const beforeUnload = (event: BeforeUnloadEvent) => event.preventDefault();
    const onClick = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest('a[href]') : null;
      if (!link || link.getAttribute('href')?.startsWith('#') || link.getAttribute('target') === '_blank') return;
      if (window.confirm(question)) return;
      event.preventDefault();
      event.stopPropagation();
    };
    window.addEventListener('beforeunload', beforeUnload);
    // In the capture phase: before the page router sees the press.
    document.addEventListener('click', onClick, true);
    return () => {
      window.removeEventListener('beforeunload', beforeUnload);
      document.removeEventListener('click', onClick, true);
    };
  }, [unsaved]);
}
