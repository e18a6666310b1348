import { z } from 'zod';
import { getSheet } from '#db/queries/getSheet';
import { saveSheet } from '#db/queries/saveSheet';
import { idSchema } from '#lib/contract/id';
import { DomainError } from '#lib/errors';
import { sheetSchema } from '#lib/sheet/sheet';
import { madeId } from '../callId';
import { ownerProcedure } from '../trpc';

/** A null id keeps the sheet as a new one of the owner's own; a built-in sheet is copied, never changed. An evaluation under way has its own frozen copy. */
export const save = ownerProcedure
  .input(z.strictObject({ id: idSchema.nullable(), sheet: sheetSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input }) => {
    if (input.id !== null && getSheet(ctx.runtime.db, input.id).builtIn) throw new DomainError('not-allowed');
    const id = input.id ?? madeId(ctx);
    saveSheet(ctx.runtime.db, { id, builtIn: false, body: input.sheet, createdAt: ctx.runtime.clock.now() });
    return { id };
  });
