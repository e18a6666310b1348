'use client';

import { type RefObject, useEffect, useRef } from 'react';

/** For a form that opens at a press: puts the focus on its first field, wherever on the page the form stands. */
export function useFocusFirst(): RefObject<HTMLFormElement | null> {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector<HTMLElement>('input, select, textarea')?.focus(), []);
  return form;
}
