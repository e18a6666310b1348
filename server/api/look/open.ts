import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { openLook } from '../../commands/openLook';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

export const open = memberProcedure
  .input(z.strictObject({ id: idSchema, slotId: idSchema, firstPuppyId: idSchema, secondPuppyId: idSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input: { id, ...question } }) => {
    const { viewer } = accessTo(ctx, id);
    return { id: openLook(ctx.runtime, { evaluationId: id, viewer, question }) };
  });
