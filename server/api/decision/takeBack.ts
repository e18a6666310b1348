import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { takeBackDecision } from '../../commands/makeDecision';
import { madeId } from '../callId';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Takes back the last pick. */
export const takeBack = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    takeBackDecision(ctx.runtime, { evaluationId: input.id, decisionId: madeId(ctx) });
    return done;
  });
