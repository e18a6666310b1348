'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { cardsHash } from '../_data/cardsHash';
import { freshId } from '../_data/freshId';
import { keepPromise } from '../_data/keptPromises';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import type { Scoring } from './useScoring';

/**
 * Locks the card with a promise: the hash of what this very device shows, with a nonce made here and kept here, so that the
 * device can tell after the reveal whether its card is the one it locked. Refused when the server holds anything else; then
 * its answers are read again.
 */
export function useLock({ evaluation, round, seat, answers }: Scoring) {
  const client = useTRPCClient();
  const trpc = useTRPC();
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async () => {
      const shown = [...answers].flatMap(([register, { body }]) => (body === null ? [] : [{ subject: register.slice(0, register.indexOf(' ')), body }]));
      const nonce = freshId();
      const commitment = cardsHash(nonce, { roundId: round.id, seatId: seat.id, answers: shown });
      // Before it is sent: an answer lost on the way must not lose the nonce. Where nothing can be kept, the lock goes on.
      await keepPromise({ roundId: round.id, seatId: seat.id }, { nonce, commitment }).catch(() => undefined);
      return client.card.lock.mutate({ id: evaluation.id, nonce, commitment });
    },
    onError: () => queries.invalidateQueries(trpc.card.mine.queryFilter({ id: evaluation.id })),
  });
}
