import { z } from 'zod';
import { getLitter } from '#db/queries/getLitter';
import { idSchema } from '#lib/contract/id';
import { litterViewSchema } from '#lib/contract/litter';
import { ownerProcedure } from '../trpc';

export const get = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(litterViewSchema)
  .query(({ ctx, input }) => getLitter(ctx.runtime.db, input.id));
