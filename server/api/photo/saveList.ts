import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { shotListSchema } from '#lib/contract/photo';
import { saveShots } from '../../commands/saveShots';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** The views the owner wants of each puppy. */
export const saveList = ownerProcedure
  .input(z.strictObject({ id: idSchema, shots: shotListSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, shots } }) => {
    accessTo(ctx, id);
    saveShots(ctx.runtime, id, shots);
    return done;
  });
