import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { removePanelSeat } from '../../commands/savePanelSeat';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

export const removeSeat = ownerProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    removePanelSeat(ctx.runtime, { evaluationId: input.id, seatId: input.seatId });
    return done;
  });
