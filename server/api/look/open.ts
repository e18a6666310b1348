import { z } from 'zod';
import { mediumSchema } from '#lib/contract/setup';
import { idSchema } from '#lib/contract/id';
import { pairsPerBatch } from '#lib/evaluation/decideLook';
import { openLook } from '../../commands/openLook';
import { madeId } from '../callId';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

const pairSchema = z.strictObject({ firstPuppyId: idSchema, secondPuppyId: idSchema });

/** Opens a batch; answers its id and those of its looks, in the order of the pairs. */
export const open = memberProcedure
  .input(z.strictObject({ id: idSchema, slotId: idSchema, medium: mediumSchema, pairs: z.array(pairSchema).min(1).max(pairsPerBatch) }))
  .output(z.strictObject({ id: idSchema, lookIds: z.array(idSchema) }))
  .mutation(({ ctx, input: { id, ...question } }) => {
    const { viewer } = accessTo(ctx, id);
    const { id: batchId, lookIds } = openLook(ctx.runtime, { evaluationId: id, newId: madeId(ctx), viewer, question });
    return { id: batchId, lookIds: [...lookIds] };
  });
