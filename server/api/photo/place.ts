import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { shotSchema } from '#lib/contract/photo';
import { changePhoto } from '../../commands/changePhoto';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Says whose picture it is, and from where. */
export const place = memberProcedure
  .input(z.strictObject({ id: idSchema, photoId: idSchema, puppyId: idSchema, view: shotSchema }))
  .output(doneSchema)
  .mutation(async ({ ctx, input: { id, photoId, puppyId, view } }) => {
    const { viewer } = accessTo(ctx, id);
    await changePhoto(ctx.runtime, { evaluationId: id, photoId, viewer, change: { kind: 'place', puppyId, view } });
    return done;
  });
