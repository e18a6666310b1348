import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { puppyInputSchema } from '#lib/contract/litter';
import { saveLitterPuppy } from '../../commands/saveLitterPuppy';
import { madeId } from '../callId';
import { ownerProcedure } from '../trpc';

/** A null puppyId adds a puppy. */
export const savePuppy = ownerProcedure
  .input(z.strictObject({ litterId: idSchema, puppyId: idSchema.nullable(), puppy: puppyInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input }) => ({ id: saveLitterPuppy(ctx.runtime, { ...input, newId: madeId(ctx) }) }));
