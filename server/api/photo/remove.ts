import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { changePhoto } from '../../commands/changePhoto';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Removes a picture and its files for good: the owner any, a seat its own. */
export const remove = memberProcedure
  .input(z.strictObject({ id: idSchema, photoId: idSchema }))
  .output(doneSchema)
  .mutation(async ({ ctx, input: { id, photoId } }) => {
    const { viewer } = accessTo(ctx, id);
    await changePhoto(ctx.runtime, { evaluationId: id, photoId, viewer, change: { kind: 'remove' } });
    return done;
  });
