import { z } from 'zod';
import { openedCommitmentSchema } from '#lib/contract/commitment';
import { idSchema } from '#lib/contract/id';
import { openCommitments } from '../../reveal/openCommitments';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** What the commitments were made of: from reveal on, so that every device can check every card. */
export const commitments = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(openedCommitmentSchema))
  .query(({ ctx, input }) => openCommitments(ctx.runtime, accessTo(ctx, input.id).facts));
