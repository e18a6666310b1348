import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { openRound as command } from '../../commands/openRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Opens the first round. */
export const openRound = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, input.id);
    return done;
  });
