import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { line } from '#lib/contract/text';
import { withdrawPuppy as command } from '../../commands/withdrawPuppy';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

export const withdrawPuppy = ownerProcedure
  .input(z.strictObject({ id: idSchema, puppyId: idSchema, reason: line(200) }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    command(ctx.runtime, { evaluationId: input.id, puppyId: input.puppyId, reason: input.reason });
    return done;
  });
