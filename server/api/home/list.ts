import { z } from 'zod';
import { listHomeLinks } from '#db/queries/listHomeLinks';
import { idSchema } from '#lib/contract/id';
import { accessTo } from '../access';
import { ownerProcedure } from '../trpc';

/** The puppies whose home has a link. */
export const list = ownerProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(idSchema))
  .query(({ ctx, input }) => listHomeLinks(ctx.runtime.db, accessTo(ctx, input.id).facts.id));
