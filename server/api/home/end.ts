import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { endHome } from '../../commands/linkHome';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** Ends a home's link. */
export const end = ownerProcedure
  .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, puppyId } }) => {
    endHome(ctx.runtime, { evaluationId: id, puppyId });
    return done;
  });
