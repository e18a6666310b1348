import { z } from 'zod';
import { listRaisedHands } from '#db/queries/listRaisedHands';
import { idSchema } from '#lib/contract/id';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** Who asks to speak, the longest waiting first. */
export const hands = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(idSchema))
  .query(({ ctx, input }) => listRaisedHands(ctx.runtime.db, reading(ctx, input.id).facts.id));
