'use client';

import { useEffect, useState } from 'react';
import { photoAddress } from './photoAddress';

const mostTries = 6;

/**
 * Where a picture's file is, and what to do when what came from there is no picture: a network's sign-in page answers for the
 * server, or the link broke. It is asked for again, later and later, past what the browser keeps of the first answer.
 */
export function usePhotoAddress(id: string, size: 'large' | 'small'): { readonly src: string; readonly onError: () => void } {
  const [tries, setTries] = useState(0);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!failed || tries >= mostTries) return;
    const timer = setTimeout(() => {
      setFailed(false);
      setTries(tries + 1);
    }, 2000 * 2 ** tries);
    return () => clearTimeout(timer);
  }, [failed, tries]);
  return { src: `${photoAddress(id, size)}${tries === 0 ? '' : `?again=${tries}`}`, onError: () => setFailed(true) };
}
