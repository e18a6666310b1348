import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { closeLook } from '../../commands/answerLook';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const close = memberProcedure
  .input(z.strictObject({ id: idSchema, batchId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    const { viewer } = accessTo(ctx, input.id);
    closeLook(ctx.runtime, { evaluationId: input.id, viewer, batchId: input.batchId });
    return done;
  });
