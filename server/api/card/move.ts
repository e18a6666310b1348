import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { moveCard } from '../../commands/moveCard';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** After a collar swap: the asker's own cards of two showings change places. BL1: no parameter names another's seat. */
export const move = memberProcedure
  .input(z.strictObject({ id: idSchema, from: idSchema, to: idSchema, moveId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, ...cards } }) => {
    const seat = ownSeat(accessTo(ctx, id));
    moveCard(ctx.runtime, { evaluationId: id, seatId: seat.id, ...cards });
    return done;
  });
