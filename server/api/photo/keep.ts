import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { changePhoto } from '../../commands/changePhoto';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Makes a picture the one of its view that is looked at first: before any reveal only. */
export const keep = memberProcedure
  .input(z.strictObject({ id: idSchema, photoId: idSchema }))
  .output(doneSchema)
  .mutation(async ({ ctx, input: { id, photoId } }) => {
    const { viewer } = accessTo(ctx, id);
    await changePhoto(ctx.runtime, { evaluationId: id, photoId, viewer, change: { kind: 'keep' } });
    return done;
  });
