import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lookViewSchema } from '#lib/contract/lookView';
import { listLookViews } from '../../reveal/listLookViews';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

export const list = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(lookViewSchema))
  .query(({ ctx, input }) => {
    const { facts, viewer } = reading(ctx, input.id);
    return listLookViews(ctx.runtime, facts, { viewer, deviceId: ctx.device.id });
  });
