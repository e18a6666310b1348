import { z } from 'zod';
import { getLitter } from '#db/queries/getLitter';
import { saveLitter } from '#db/queries/saveLitter';
import { idSchema } from '#lib/contract/id';
import { litterInputSchema } from '#lib/contract/litter';
import { madeId } from '../callId';
import { ownerProcedure } from '../trpc';

/** A null id makes a new litter. */
export const save = ownerProcedure
  .input(z.strictObject({ id: idSchema.nullable(), litter: litterInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input }) => {
    if (input.id !== null) getLitter(ctx.runtime.db, input.id);
    const id = input.id ?? madeId(ctx);
    saveLitter(ctx.runtime.db, { ...input.litter, id, createdAt: ctx.runtime.clock.now() });
    return { id };
  });
