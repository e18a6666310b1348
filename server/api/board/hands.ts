import { z } from 'zod';
import { listRaisedHands } from '#db/queries/listRaisedHands';
import { raisedHandsSchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { markReader } from '#lib/evaluation/readsOnly';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** Who asks to speak, the longest waiting first; a hand raised while something is open is told to its own seat alone. */
export const hands = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(raisedHandsSchema)
  .query(({ ctx, input }) => {
    const { facts, viewer } = reading(ctx, input.id);
    return listRaisedHands(ctx.runtime.db, facts.id, markReader(facts, viewer, ctx.device.id));
  });
