import { z } from 'zod';
import { entryOutcomeSchema, sentEntrySchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/id';
import { submitEntries } from '../../commands/submitEntries';
import { memberProcedure } from '../trpc';

/** What a device has in hand, in one call; answered entry by entry once committed to disk (SC1). */
export const submit = memberProcedure
  .input(z.strictObject({ id: idSchema, entries: z.array(sentEntrySchema).min(1).max(50) }))
  .output(z.array(entryOutcomeSchema))
  .mutation(({ ctx, input }) => submitEntries(ctx.runtime, { evaluationId: input.id, from: ctx.device, entries: input.entries }));
