import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { revealRound as command } from '../../reveal/revealRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** For good (BL7). */
export const revealRound = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, input.id);
    return done;
  });
