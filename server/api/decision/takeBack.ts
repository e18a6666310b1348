import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { takeBackDecision } from '../../commands/makeDecision';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Takes back the last pick. */
export const takeBack = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    takeBackDecision(ctx.runtime, input.id);
    return done;
  });
