import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { inviteSeat } from '../../commands/inviteSeat';
import { ownerProcedure } from '../trpc';

/** The token goes into the fragment of a link, so that it reaches no log; it is shown this once. */
export const invite = ownerProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(z.strictObject({ token: z.string() }))
  .mutation(({ ctx, input }) => ({ token: inviteSeat(ctx.runtime, { evaluationId: input.id, seatId: input.seatId }) }));
