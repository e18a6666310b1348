import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lockSeat } from '../../commands/lockSeat';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const lock = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    const seat = ownSeat(accessTo(ctx, input.id));
    lockSeat(ctx.runtime, { evaluationId: input.id, seatId: seat.id });
    return done;
  });
