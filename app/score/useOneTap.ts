'use client';

import { useEffect } from 'react';
import { isSamePlace, type Touch } from '#lib/evaluation/followTable';

/** What a thumb that bounces must not press when it has slipped under it: a key that scores, a notice that would be put away unread. */
const steady = '[data-key], [data-steady]';

/**
 * While the page is open: the second half of a double tap presses nothing that has come under the thumb since the first, as
 * where a drawer has closed or a row has moved up. A key held down presses a button once.
 */
export function useOneTap(): void {
  useEffect(() => {
    let last: (Touch & { readonly on: Element | null }) | null = null;
    const onClick = (event: MouseEvent) => {
      // By keyboard or another aid there is no thumb.
      if (event.detail === 0) return;
      const on = event.target instanceof Element ? (event.target.closest('button') ?? event.target) : null;
      const touch = { at: event.timeStamp, x: event.clientX, y: event.clientY, on };
      const slipped = on !== last?.on && isSamePlace(last, touch) && on?.matches(steady) === true;
      last = touch;
      if (!slipped) return;
      event.preventDefault();
      event.stopPropagation();
    };
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.repeat && event.key === 'Enter' && event.target instanceof HTMLButtonElement) event.preventDefault();
    };
    document.addEventListener('click', onClick, true);
    document.addEventListener('keydown', onKeyDown, true);
    return () => {
      document.removeEventListener('click', onClick, true);
      document.removeEventListener('keydown', onKeyDown, true);
    };
  }, []);
}
