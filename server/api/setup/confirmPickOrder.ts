import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { confirmPickOrder as confirm } from '../../commands/confirmPickOrder';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const confirmPickOrder = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    confirm(ctx.runtime, { evaluationId: input.id, seatId: ownSeat(accessTo(ctx, input.id)).id });
    return done;
  });
