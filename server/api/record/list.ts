import { z } from 'zod';
import { listRecord } from '#db/queries/listRecord';
import { recordEntrySchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** What happened, in order: who opened, locked, revealed, decided. Never a score. */
export const list = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(recordEntrySchema))
  .query(({ ctx, input }) => listRecord(ctx.runtime.db, accessTo(ctx, input.id).facts.id));
