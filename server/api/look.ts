import { z } from 'zod';
import { idSchema } from '#lib/contract/fields';
import { lookAnswerInputSchema, lookProposalSchema, lookViewSchema } from '#lib/contract/lookView';
import { mediumSchema } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import { pairsPerBatch } from '#lib/evaluation/decideLook';
import { answerLook, closeLook, openLook } from '../commands/looks';
import { listLookViews, proposeLooks } from '../reveal/looks';
import { reading } from './access';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, router } from './trpc';

const pairSchema = z.strictObject({ firstPuppyId: idSchema, secondPuppyId: idSchema });

export const lookRouter = router({
  answer: memberProcedure
    .input(z.strictObject({ id: idSchema, answer: lookAnswerInputSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      answerLook(ctx, { evaluationId: input.id, answer: input.answer });
      return done;
    }),

  close: memberProcedure
    .input(z.strictObject({ id: idSchema, batchId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      closeLook(ctx, { evaluationId: input.id, batchId: input.batchId });
      return done;
    }),

  list: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(lookViewSchema))
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      return listLookViews(ctx.runtime, facts, { viewer, deviceId: ctx.device.id });
    }),

  /** Opens a batch; answers its id and those of its looks, in the order of the pairs. */
  open: memberProcedure
    .input(
      z.strictObject({
        id: idSchema,
        slotId: idSchema,
        medium: mediumSchema,
        pairs: z.array(pairSchema).min(1).max(pairsPerBatch),
      }),
    )
    .output(z.strictObject({ id: idSchema, lookIds: z.array(idSchema) }))
    .mutation(({ ctx, input: { id, ...question } }) => {
      const { id: batchId, lookIds } = openLook(ctx, { evaluationId: id, newId: madeId(ctx), question });
      return { id: batchId, lookIds: [...lookIds] };
    }),

  /** What to look at next for one place, for whoever leads; a place that is no close call has nothing to propose, and says why. */
  propose: memberProcedure
    .input(z.strictObject({ id: idSchema, slotId: idSchema, medium: mediumSchema }))
    .output(lookProposalSchema)
    .query(async ({ ctx, input: { id, slotId, medium } }) => {
      const { facts, viewer } = reading(ctx, id);
      if (!viewer.owner && !viewer.leads) throw new DomainError('not-allowed');
      if (!facts.slots.some((slot) => slot.id === slotId)) throw new DomainError('not-found');
      const batch = await proposeLooks(ctx.runtime, facts, { slotId, medium });
      if ('undefined' in batch) return { undefined: batch.undefined };
      return {
        pairs: batch.looks.map(({ first, second, repeat }) => ({ firstPuppyId: first, secondPuppyId: second, repeat })),
        now: batch.now,
        gain: batch.gain,
      };
    }),
});
