import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { cellSchema } from '#lib/contract/plan';
import { openSecondRound as openSecond } from '../../commands/openSecondRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

export const openSecondRound = ownerProcedure
  .input(z.strictObject({ id: idSchema, cells: z.array(cellSchema).min(1).max(60) }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    openSecond(ctx.runtime, { evaluationId: input.id, cells: input.cells });
    return done;
  });
