import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { reissueSeat } from '../../commands/reissueSeat';
import { ownerProcedure } from '../trpc';

/** For a lost device: ends its session and makes a new link, shown this once. */
export const reissue = ownerProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(z.strictObject({ token: z.string() }))
  .mutation(({ ctx, input }) => ({ token: reissueSeat(ctx.runtime, { evaluationId: input.id, seatId: input.seatId }) }));
