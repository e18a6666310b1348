import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { setupViewSchema } from '#lib/contract/evaluationView';
import { setupView } from '#lib/blind/setupView';
import { preparing } from '../access';
import { memberProcedure } from '../trpc';

/** For whoever prepares: the owner, or an organiser. */
export const get = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(setupViewSchema)
  .query(({ ctx, input }) => setupView(preparing(ctx, input.id).facts));
