import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { removePerson } from '../../commands/removePerson';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Removes what names the person of a seat and what it wrote: the seat's own word, or the owner's. Not to be taken back. */
export const remove = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, seatId } }) => {
    removePerson(ctx.runtime, { evaluationId: id, seatId, viewer: accessTo(ctx, id).viewer });
    return done;
  });
