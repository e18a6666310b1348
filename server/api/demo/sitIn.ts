import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';
import { copyOf } from './copyOf';

/** Moves the visitor to the own seat in the other evaluation of the copy: one session is one seat, also here. */
export const sitIn = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    ctx.setSession(copyOf(ctx.runtime).sessionIn(input.id));
    return done;
  });
