import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { linkHome } from '../../commands/linkHome';
import { ownerProcedure } from '../trpc';

/** The token goes into the fragment of the home's link; it is shown this once. */
export const link = ownerProcedure
  .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
  .output(z.strictObject({ token: z.string() }))
  .mutation(({ ctx, input: { id, puppyId } }) => ({ token: linkHome(ctx.runtime, { evaluationId: id, puppyId }) }));
