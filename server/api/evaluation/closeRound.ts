import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { closeRound as command } from '../../commands/closeRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Ends scoring; seats that have not locked stand as they are. */
export const closeRound = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, input.id);
    return done;
  });
