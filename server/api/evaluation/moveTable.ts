import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { moveTable as command } from '../../commands/moveTable';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const moveTable = memberProcedure
  .input(z.strictObject({ id: idSchema, showingId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    const { viewer } = accessTo(ctx, input.id);
    command(ctx.runtime, { evaluationId: input.id, viewer, showingId: input.showingId });
    return done;
  });
