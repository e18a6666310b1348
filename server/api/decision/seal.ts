import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { sealEvaluation } from '../../commands/makeDecision';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Seals the record, once every slot is decided. */
export const seal = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    sealEvaluation(ctx.runtime, input.id);
    return done;
  });
