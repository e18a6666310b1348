'use client';

import { useEffect, useState } from 'react';
import type { PhotoFace } from '#lib/contract/photo';
import type { ShotKey } from '#lib/photo/shot';

/** A picture at its small size; what it shows is said beside it. */
export function PhotoThumb({ photo, lazy = false }: { readonly photo: PhotoFace; readonly lazy?: boolean }) {
  const file = usePhotoAddress(photo.id, 'small');
  return (
    <img
      {...file}
      alt=""
      width={320}
      height={Math.round((320 * photo.height) / photo.width)}
      {...(lazy ? { loading: 'lazy' } : {})}
    />
  );
}

const mostTries = 6;

/**
 * Where a picture's file is, and what to do when what came from there is no picture: a network's sign-in page answers for the
 * server, or the link broke. It is asked for again, later and later, past what the browser keeps of the first answer.
 */
export function usePhotoAddress(
  id: string,
  size: 'large' | 'small',
): { readonly src: string; readonly onError: () => void } {
  const [tries, setTries] = useState(0);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!failed || tries >= mostTries) return;
    const timer = setTimeout(
      () => {
        setFailed(false);
        setTries(tries + 1);
      },
      2000 * 2 ** tries,
    );
    return () => clearTimeout(timer);
  }, [failed, tries]);
  return { src: `${photoAddress(id, size)}${tries === 0 ? '' : `?again=${tries}`}`, onError: () => setFailed(true) };
}

/** Where a picture's file is: by its own random id, which tells nothing of the puppy. */
export function photoAddress(id: string, size: 'large' | 'small'): string {
  return `/api/photo/${id}/${size}`;
}

/** The picture of a view to look at first: the keeper, else the newest fair one, else the newest. */
export function keeperOf(photos: readonly PhotoFace[], puppyId: string, view: ShotKey): PhotoFace | undefined {
  const all = photos.filter((photo) => photo.puppyId === puppyId && photo.view === view);
  return all.find((photo) => photo.keeper) ?? all.findLast((photo) => photo.fair) ?? all.at(-1);
}
