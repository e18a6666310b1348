import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { setupViewSchema } from '#lib/contract/evaluationView';
import { setupView } from '#lib/blind/setupView';
import { accessTo } from '../access';
import { ownerProcedure } from '../trpc';

export const get = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(setupViewSchema)
  .query(({ ctx, input }) => setupView(accessTo(ctx, input.id).facts));
