'use client';

import { useMutation } from '@tanstack/react-query';
import type { SessionView } from '#lib/contract/sessionView';
import { openOutboxStore } from '../_data/outboxStore';
import { useTRPCClient } from '../_data/trpc';

/** Counts, when asked, the entries that are on this device and not on the server (LV2). */
export function useOnlyHere(seat: SessionView['seat']) {
  const client = useTRPCClient();
  return useMutation({
    mutationFn: async () => {
      const owners = seat === null ? await ownSeats(client) : [{ evaluationId: seat.evaluationId, seatId: seat.id }];
      const store = openOutboxStore();
      try {
        const rows = await Promise.all(owners.map((owner) => store.load(owner)));
        return rows.flat().filter((row) => row.status === 'waiting').length;
      } finally {
        store.close();
      }
    },
  });
}

/** The owner's own seat in each evaluation that is being scored. */
async function ownSeats(client: ReturnType<typeof useTRPCClient>): Promise<{ readonly evaluationId: string; readonly seatId: string }[]> {
  const lines = await client.evaluation.list.query();
  const scoring = await Promise.all(lines.filter((one) => one.phase === 'scoring').map((one) => client.evaluation.get.query({ id: one.id })));
  return scoring.flatMap(({ id, viewer }) => (viewer.seatId === null ? [] : [{ evaluationId: id, seatId: viewer.seatId }]));
}
