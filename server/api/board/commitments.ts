import { z } from 'zod';
import { openedCommitmentSchema } from '#lib/contract/commitment';
import { idSchema } from '#lib/contract/id';
import { openCommitments } from '../../reveal/openCommitments';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** What the commitments were made of: from reveal on, so that every device can check every card; an anonymous panel opens to each seat its own. */
export const commitments = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(openedCommitmentSchema))
  .query(({ ctx, input }) => {
    const { facts, viewer } = reading(ctx, input.id);
    return openCommitments(ctx.runtime, facts, viewer);
  });
