import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { openRound as openFirstRound } from '../../commands/openRound';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** `unconfirmed` says that the owner opens although a party has not agreed to the pick order: it goes on the record. */
export const openRound = ownerProcedure
  .input(z.strictObject({ id: idSchema, unconfirmed: z.boolean().default(false) }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    openFirstRound(ctx.runtime, { evaluationId: input.id, unconfirmed: input.unconfirmed });
    return done;
  });
