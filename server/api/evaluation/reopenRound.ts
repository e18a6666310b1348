import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { reopenRound as command } from '../../commands/closeRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Before reveal only, on the record. */
export const reopenRound = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, input.id);
    return done;
  });
