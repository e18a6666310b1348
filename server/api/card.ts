import { z } from 'zod';
import { listOwnAnswers } from '#db/queries/entries';
import { hashSchema, nonceSchema } from '#lib/contract/commitment';
import { answerSchema, entryOutcomeSchema, sentEntrySchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/fields';
import { importLimits } from '#lib/contract/fileLimits';
import { importPreviewSchema } from '#lib/contract/importView';
import { readsOnly } from '#lib/evaluation/seats';
import { blankScores, importScores, planImport } from '../commands/imports';
import { lockSeat, moveCard, submitEntries } from '../commands/cards';
import { ownSeat } from '../write/writeEvaluation';
import { accessTo } from './access';
import { done, doneSchema, memberProcedure, router } from './trpc';

export const cardRouter = router({
  importScores: memberProcedure
    .input(z.strictObject({ id: idSchema, text: z.string().max(importLimits.bytes) }))
    .output(importPreviewSchema)
    .mutation(({ ctx, input }) => importScores(ctx, { evaluationId: input.id, text: input.text })),

  /** `commitment` is made by the device over the cards as it shows them; refused as out-of-step when the server holds others. */
  lock: memberProcedure
    .input(z.strictObject({ id: idSchema, nonce: nonceSchema, commitment: hashSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      lockSeat(ctx, { evaluationId: input.id, promised: { nonce: input.nonce, commitment: input.commitment } });
      return done;
    }),

  /** BL1: the asker's own answers, and no parameter to ask for another's. */
  mine: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.strictObject({ roundId: idSchema.nullable(), answers: z.array(answerSchema) }))
    .query(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      const seat = ownSeat(access);
      const { round } = access.facts;
      if (!round) return { roundId: null, answers: [] };
      const answers = listOwnAnswers(ctx.runtime.db, {
        seatId: seat.id,
        roundId: round.id,
        deviceId: readsOnly(round.state, seat, ctx.device.id),
      });
      return { roundId: round.id, answers };
    }),

  /** After a collar swap: the asker's own cards of two showings change places. BL1: no parameter names another's seat. */
  move: memberProcedure
    .input(z.strictObject({ id: idSchema, from: idSchema, to: idSchema, moveId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, ...cards } }) => {
      moveCard(ctx, { evaluationId: id, ...cards });
      return done;
    }),

  /** Every row's fate, before anything is written. */
  previewImport: memberProcedure
    .input(z.strictObject({ id: idSchema, text: z.string().max(importLimits.bytes) }))
    .output(importPreviewSchema)
    .mutation(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      return planImport(ctx.runtime, {
        facts: access.facts,
        viewer: access.viewer,
        seat: ownSeat(access),
        deviceId: ctx.device.id,
        text: input.text,
      }).preview;
    }),

  /** What a device has in hand, in one call; answered entry by entry once committed to disk (SC1). */
  submit: memberProcedure
    .input(z.strictObject({ id: idSchema, entries: z.array(sentEntrySchema).min(1).max(50) }))
    .output(z.array(entryOutcomeSchema))
    .mutation(({ ctx, input }) => submitEntries(ctx, { evaluationId: input.id, entries: input.entries })),

  /** A file for the asker's own scores, all blank, as importScores reads it; puppies by the names that this seat sees. */
  template: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.strictObject({ text: z.string() }))
    .query(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      return { text: blankScores(access.facts, { viewer: access.viewer, seat: ownSeat(access) }) };
    }),
});
