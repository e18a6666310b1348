import { z } from 'zod';
import { listSheets } from '#db/queries/listSheets';
import { idSchema } from '#lib/contract/id';
import { ownerProcedure } from '../trpc';

export const list = ownerProcedure
  .input(z.void())
  .output(z.array(z.strictObject({ id: idSchema, builtIn: z.boolean(), name: z.string(), criteria: z.int(), low: z.int(), high: z.int() })))
  .query(({ ctx }) =>
    listSheets(ctx.runtime.db).map(({ id, builtIn, sheet }) => ({
      id,
      builtIn,
      name: sheet.name,
      criteria: sheet.criteria.length,
      low: sheet.scale.low,
      high: sheet.scale.high,
    })),
  );
