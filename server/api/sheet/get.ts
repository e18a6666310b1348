import { z } from 'zod';
import { getSheet } from '#db/queries/getSheet';
import { idSchema } from '#lib/contract/id';
import { sheetSchema } from '#lib/sheet/sheet';
import { ownerProcedure } from '../trpc';

export const get = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.strictObject({ id: idSchema, builtIn: z.boolean(), sheet: sheetSchema }))
  .query(({ ctx, input }) => getSheet(ctx.runtime.db, input.id));
