import { z } from 'zod';
import { getSeat } from '#db/queries/getSeat';
import { protocolVersion } from '#lib/contract/protocolVersion';
import { sessionViewSchema } from '#lib/contract/sessionView';
import { publicProcedure } from '../trpc';

/** Who this browser is; answers for strangers too. */
export const me = publicProcedure.input(z.void()).output(sessionViewSchema).query(({ ctx }) => {
  const seatId = ctx.device?.seatId ?? null;
  const seat = seatId === null ? null : getSeat(ctx.runtime.db, seatId);
  return {
    owner: ctx.device?.owner ?? false,
    seat: seat && { id: seat.id, label: seat.label, evaluationId: seat.evaluationId },
    demo: ctx.runtime.demo !== null,
    protocolVersion,
  };
});
