import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { endSeatDevices } from '../../commands/endDevices';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Ends every session of a seat, at once. */
export const endSeat = ownerProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    endSeatDevices(ctx.runtime, { evaluationId: input.id, seatId: input.seatId });
    return done;
  });
