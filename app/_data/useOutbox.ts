'use client';

import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { OwnRead } from '#lib/evaluation/outboxState';
import { aloneOnDevice, otherPages, type PageWord, tellOtherPages } from './otherPages';
import { freshId } from './freshId';
import { Outbox, type OutboxView } from './outbox';
import { openOutboxStore } from './outboxStore';
import { after } from './timers';
import { useTRPC, useTRPCClient } from './trpc';
import type { Link } from './useLive';

const lockName = 'evenstack-outbox';

type Setting = {
  readonly evaluationId: string;
  readonly seatId: string;
  readonly link: Link;
  /** The seat's own answers as last read; undefined before. */
  readonly read: OwnRead | undefined;
};

/** The outbox of this seat on this device, awake whenever the page, the network or the socket wakes. */
export function useOutbox({ evaluationId, seatId, link, read }: Setting): {
  readonly outbox: Outbox;
  readonly view: OutboxView;
} {
  const outbox = useNewOutbox(evaluationId, seatId);
  const view = useSyncExternalStore(outbox.subscribe, outbox.getView, outbox.getView);
  useEffect(() => {
    outbox.start();
    const others = otherPages();
    const heard = ({ data }: MessageEvent<PageWord>) => {
      if (data === 'changed') void outbox.reload();
      else outbox.leave();
    };
    others?.addEventListener('message', heard);
    const shown = () => {
      if (document.visibilityState !== 'visible') return;
      outbox.wake();
      // A page that slept, or a browser without channels, has not heard what another page of this device wrote.
      void outbox.reload();
    };
    window.addEventListener('online', outbox.wake);
    window.addEventListener('pageshow', outbox.wake);
    document.addEventListener('visibilitychange', shown);
    return () => {
      outbox.stop();
      others?.removeEventListener('message', heard);
      window.removeEventListener('online', outbox.wake);
      window.removeEventListener('pageshow', outbox.wake);
      document.removeEventListener('visibilitychange', shown);
    };
  }, [outbox]);
  useEffect(() => {
    if (link.connected) outbox.wake();
  }, [outbox, link.connected]);
  useEffect(() => {
    if (read) outbox.absorb(read);
  }, [outbox, read]);
  return { outbox, view };
}

function useNewOutbox(evaluationId: string, seatId: string): Outbox {
  const client = useTRPCClient();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [outbox] = useState(
    () =>
      new Outbox({
        evaluationId,
        seatId,
        store: openOutboxStore(),
        now: () => Date.now(),
        after,
        spread: () => Math.random(),
        freshId,
        send: (entries, signal) => client.card.submit.mutate({ id: evaluationId, entries: [...entries] }, { signal }),
        alone: (work) => aloneOnDevice(lockName, work),
        tellOthers: () => tellOtherPages('changed'),
        onAnswered: () => void queries.invalidateQueries(trpc.card.mine.queryFilter({ id: evaluationId })),
        // Whether the round is still open may have changed with the answers.
        onDoubt: () => {
          void queries.invalidateQueries(trpc.evaluation.get.queryFilter({ id: evaluationId }));
          void queries.invalidateQueries(trpc.card.mine.queryFilter({ id: evaluationId }));
        },
      }),
  );
  return outbox;
}
