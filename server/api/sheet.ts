import { z } from 'zod';
import { getSheet, listSheets, saveSheet } from '#db/queries/sheets';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import { sheetSchema } from '#lib/sheet/sheet';
import { madeId } from './callId';
import { ownerProcedure, router } from './trpc';

export const sheetRouter = router({
  get: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.strictObject({ id: idSchema, builtIn: z.boolean(), sheet: sheetSchema }))
    .query(({ ctx, input }) => getSheet(ctx.runtime.db, input.id)),

  list: ownerProcedure
    .input(z.void())
    .output(
      z.array(
        z.strictObject({
          id: idSchema,
          builtIn: z.boolean(),
          name: z.string(),
          criteria: z.int(),
          low: z.int(),
          high: z.int(),
        }),
      ),
    )
    .query(({ ctx }) =>
      listSheets(ctx.runtime.db).map(({ id, builtIn, sheet }) => ({
        id,
        builtIn,
        name: sheet.name,
        criteria: sheet.criteria.length,
        low: sheet.scale.low,
        high: sheet.scale.high,
      })),
    ),

  /** A null id keeps the sheet as a new one of the owner's own; a built-in sheet is copied, never changed. An evaluation under way has its own frozen copy. */
  save: ownerProcedure
    .input(z.strictObject({ id: idSchema.nullable(), sheet: sheetSchema }))
    .output(z.strictObject({ id: idSchema }))
    .mutation(({ ctx, input }) => {
      if (input.id !== null && getSheet(ctx.runtime.db, input.id).builtIn) throw new DomainError('not-allowed');
      const id = input.id ?? madeId(ctx);
      saveSheet(ctx.runtime.db, { id, builtIn: false, body: input.sheet, createdAt: ctx.runtime.clock.now() });
      return { id };
    }),
});
