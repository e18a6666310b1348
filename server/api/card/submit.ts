import { z } from 'zod';
import { entryOutcomeSchema, entrySchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/id';
import { submitEntries } from '../../commands/submitEntries';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** What a device has in hand, in one call; answered entry by entry once committed to disk (SC1). */
export const submit = memberProcedure
  .input(z.strictObject({ id: idSchema, entries: z.array(entrySchema).min(1).max(50) }))
  .output(z.array(entryOutcomeSchema))
  .mutation(({ ctx, input }) => {
    const seat = ownSeat(accessTo(ctx, input.id));
    return submitEntries(ctx.runtime, { evaluationId: input.id, seatId: seat.id, deviceId: ctx.device.id, entries: input.entries });
  });
