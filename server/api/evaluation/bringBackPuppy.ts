import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { bringBackPuppy as command } from '../../commands/withdrawPuppy';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

export const bringBackPuppy = ownerProcedure
  .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, { evaluationId: input.id, puppyId: input.puppyId });
    return done;
  });
