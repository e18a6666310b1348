import { z } from 'zod';
import { keySchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/id';
import { line } from '#lib/contract/text';
import { clearHold as command } from '../../commands/clearHold';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

export const clearHold = ownerProcedure
  .input(z.strictObject({ id: idSchema, puppyId: idSchema, check: keySchema, answer: line(300, 1), by: line(80, 1) }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, ...answer } }) => {
    command(ctx.runtime, { evaluationId: id, ...answer });
    return done;
  });
