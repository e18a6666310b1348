import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lookProposalSchema } from '#lib/contract/lookView';
import { mediumSchema } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import { proposeLooks } from '../../reveal/proposeLooks';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** What to look at next for one place, for whoever leads; a place that is no close call has nothing to propose, and says why. */
export const propose = memberProcedure
  .input(z.strictObject({ id: idSchema, slotId: idSchema, medium: mediumSchema }))
  .output(lookProposalSchema)
  .query(async ({ ctx, input: { id, slotId, medium } }) => {
    const { facts, viewer } = reading(ctx, id);
    if (!viewer.owner && !viewer.leads) throw new DomainError('not-allowed');
    if (!facts.slots.some((slot) => slot.id === slotId)) throw new DomainError('not-found');
    const batch = await proposeLooks(ctx.runtime, facts, { slotId, medium });
    if ('undefined' in batch) return { undefined: batch.undefined };
    return { pairs: batch.looks.map(({ first, second, repeat }) => ({ firstPuppyId: first, secondPuppyId: second, repeat })), now: batch.now, gain: batch.gain };
  });
