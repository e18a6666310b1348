import { z } from 'zod';
import { getLitter } from '#db/queries/getLitter';
import { saveLitter } from '#db/queries/saveLitter';
import { idSchema } from '#lib/contract/id';
import { litterInputSchema } from '#lib/contract/litter';
import { ownerProcedure } from '../trpc';

/** A null id makes a new litter. */
export const save = ownerProcedure
  .input(z.strictObject({ id: idSchema.nullable(), litter: litterInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx: { runtime }, input }) => {
    if (input.id !== null) getLitter(runtime.db, input.id);
    const id = input.id ?? runtime.random.id();
    saveLitter(runtime.db, { ...input.litter, id, createdAt: runtime.clock.now() });
    return { id };
  });
