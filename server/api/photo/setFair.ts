import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { changePhoto } from '../../commands/changePhoto';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Whether the picture is a fair one of the puppy: stance, light and angle, never structure. */
export const setFair = memberProcedure
  .input(z.strictObject({ id: idSchema, photoId: idSchema, fair: z.boolean() }))
  .output(doneSchema)
  .mutation(async ({ ctx, input: { id, photoId, fair } }) => {
    const { viewer } = accessTo(ctx, id);
    await changePhoto(ctx.runtime, { evaluationId: id, photoId, viewer, change: { kind: 'fair', fair } });
    return done;
  });
