'use client';

import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState, useSyncExternalStore } from 'react';
import { aloneOnDevice } from './otherPages';
import { PhotoQueue, type PhotoQueueView } from './photoQueue';
import { openPhotoStore } from './photoStore';
import { postPhoto } from './postPhoto';
import { after } from './timers';
import { useTRPC } from './trpc';

/** The pictures of this seat that wait on this device, awake whenever the page, the network or the socket wakes. */
export function usePhotoQueue(
  evaluationId: string,
  seat: string,
): { readonly queue: PhotoQueue; readonly view: PhotoQueueView } {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [queue] = useState(
    () =>
      new PhotoQueue({
        evaluationId,
        seat,
        store: openPhotoStore(),
        post: postPhoto,
        now: () => Date.now(),
        after,
        spread: () => Math.random(),
        alone: (work) => aloneOnDevice('evenstack-pictures', work),
        onSent: () => void queries.invalidateQueries(trpc.photo.list.queryFilter({ id: evaluationId })),
      }),
  );
  const view = useSyncExternalStore(queue.subscribe, queue.getView, queue.getView);
  useEffect(() => {
    void queue.start();
    const shown = () => {
      if (document.visibilityState === 'visible') queue.wake();
    };
    window.addEventListener('online', queue.wake);
    window.addEventListener('pageshow', queue.wake);
    document.addEventListener('visibilitychange', shown);
    return () => {
      queue.stop();
      window.removeEventListener('online', queue.wake);
      window.removeEventListener('pageshow', queue.wake);
      document.removeEventListener('visibilitychange', shown);
    };
  }, [queue]);
  return { queue, view };
}
