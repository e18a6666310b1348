'use client';

import { useEffect, useState } from 'react';

/** A click comes right after its finger has gone; a browser that is busy may take this long. */
const clickWithinMs = 300;
/** Beside the ids of pointers, which are not negative. */
const spaceBar = -1;

/** True while something of this page is in use that must not change under the hand: a finger is down, a drawer is open, words are being typed. */
export function useHeld(active: boolean): boolean {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    if (!active) return;
    const fingers = new Set<number>();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = () => setHeld(fingers.size > 0 || inUse());
    const lookIn = (ms: number) => {
      clearTimeout(timer);
      timer = setTimeout(look, ms);
    };
    const down = (event: PointerEvent) => {
      // A further button of a mouse that is down already sends no pointerup of its own.
      if (event.button !== 0) return;
      clearTimeout(timer);
      fingers.add(event.pointerId);
      look();
    };
    const up = (event: PointerEvent) => {
      fingers.delete(event.pointerId);
      lookIn(clickWithinMs);
    };
    /** A mouse let go outside the window. */
    const moved = (event: PointerEvent) => {
      if (event.buttons === 0 && fingers.delete(event.pointerId)) lookIn(clickWithinMs);
    };
    /** The space bar presses when it is let go. */
    const keyDown = (event: KeyboardEvent) => {
      if (event.key !== ' ' || event.repeat) return;
      fingers.add(spaceBar);
      look();
    };
    const keyUp = (event: KeyboardEvent) => {
      if (event.key === ' ') fingers.delete(spaceBar);
      soon();
    };
    const soon = () => {
      if (fingers.size === 0) lookIn(0);
    };
    const gone = () => {
      fingers.clear();
      lookIn(0);
    };
    const over = new AbortController();
    const onPage = { signal: over.signal, capture: true };
    document.addEventListener('pointerdown', down, onPage);
    for (const kind of ['pointerup', 'pointercancel'] as const) document.addEventListener(kind, up, onPage);
    document.addEventListener('pointermove', moved, onPage);
    document.addEventListener('keydown', keyDown, onPage);
    document.addEventListener('keyup', keyUp, onPage);
    for (const kind of ['click', 'focusin', 'focusout']) document.addEventListener(kind, soon, onPage);
    document.addEventListener('visibilitychange', gone, onPage);
    window.addEventListener('blur', gone, { signal: over.signal });
    return () => {
      over.abort();
      clearTimeout(timer);
    };
  }, [active]);
  return active && held;
}

/** Anything over the page, or a field one is writing in. */
function inUse(): boolean {
  const focus = document.activeElement;
  return document.querySelector('dialog[open]') !== null || (focus !== null && focus.matches('textarea, select, input:not([type=radio], [type=checkbox])'));
}
