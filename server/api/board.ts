import { z } from 'zod';
import { listDiscussionNotes } from '#db/queries/decisions';
import { closedBatches } from '#db/queries/looks';
import { listRestores } from '#db/queries/record';
import { countLateEntries } from '#db/queries/rounds';
import { listRaisedHands } from '#db/queries/seats';
import { boardView } from '#lib/blind/boardView';
import { coefficientsView } from '#lib/blind/coefficientsView';
import { robustnessView } from '#lib/blind/robustnessView';
import { boardViewSchema, coefficientsViewSchema, robustnessViewSchema } from '#lib/contract/boardView';
import { openedCommitmentSchema } from '#lib/contract/commitment';
import { discussionNoteSchema, raisedHandsSchema } from '#lib/contract/decisionView';
import { keySchema } from '#lib/contract/entry';
import { idSchema, paragraph } from '#lib/contract/fields';
import { markReader } from '#lib/evaluation/seats';
import { addDiscussionNote, askToSpeak } from '../commands/talk';
import { openCommitments } from '../reveal/openCommitments';
import { readAgreement, readResult, readRobustness } from '../reveal/results';
import { reading } from './access';
import { done, doneSchema, memberProcedure, router } from './trpc';

export const boardRouter = router({
  /** `noteId` is made by the device; the same id again changes nothing. */
  addNote: memberProcedure
    .input(
      z.strictObject({
        id: idSchema,
        noteId: idSchema,
        slotId: idSchema.nullable(),
        puppyId: idSchema.nullable(),
        otherPuppyId: idSchema.nullable(),
        criterion: keySchema.nullable(),
        text: paragraph(1000),
      }),
    )
    .output(doneSchema)
    .mutation(({ ctx, input: { id, noteId, ...note } }) => {
      addDiscussionNote(ctx, { ...note, id: noteId, evaluationId: id });
      return done;
    }),

  /** A seat raises its own hand; it, or whoever leads, takes it down. */
  askToSpeak: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema, up: z.boolean() }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, seatId, up } }) => {
      askToSpeak(ctx, { evaluationId: id, seatId, up });
      return done;
    }),

  /** The drawer's coefficients, computed when it opens. */
  coefficients: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(coefficientsViewSchema)
    .query(async ({ ctx: { runtime, device, limits }, input }) => {
      limits.spend('coefficients', device.id, runtime.clock.now());
      const { facts } = reading({ runtime, device }, input.id);
      return coefficientsView(await readAgreement(runtime, facts));
    }),

  /** What the commitments were made of: from reveal on, so that every device can check every card; an anonymous panel opens to each seat its own. */
  commitments: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(openedCommitmentSchema))
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      return openCommitments(ctx.runtime, facts, viewer);
    }),

  /** The board, from reveal on; before it wrong-phase (BL6). */
  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(boardViewSchema)
    .query(async ({ ctx: { runtime, device }, input }) => {
      const { facts, viewer } = reading({ runtime, device }, input.id);
      const { snapshot, first, second, looks, panel, reconciliation, bands, profiles, questions, holds } =
        await readResult(runtime, facts);
      return boardView({
        snapshot,
        first,
        second,
        looks,
        panel,
        reconciliation,
        bands,
        profiles,
        questions,
        holds,
        lateEntries: [first, ...(second ? [second] : [])].reduce(
          (sum, { roundId }) => sum + countLateEntries(runtime.db, roundId),
          0,
        ),
        restores: listRestores(runtime.db, facts.id),
        anonymous: facts.plan.discussion === 'anonymous',
        viewerSeatId: viewer.seatId,
        batches: { used: closedBatches(runtime.db, facts.id), agreed: facts.plan.lookBatches },
      });
    }),

  /** Who asks to speak, the longest waiting first; a hand raised while something is open is told to its own seat alone. */
  hands: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(raisedHandsSchema)
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      return listRaisedHands(ctx.runtime.db, facts.id, markReader(facts, viewer, ctx.device.id));
    }),

  /** What was written after the reveal, and may be told; in an anonymous panel a seat is named on its own notes only. */
  notes: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(discussionNoteSchema))
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      const anonymous = facts.plan.discussion === 'anonymous';
      const notes = listDiscussionNotes(ctx.runtime.db, facts.id, markReader(facts, viewer, ctx.device.id));
      return notes.map((note) => (anonymous && note.seat !== viewer.seatId ? { ...note, seat: null } : note));
    }),

  /** What else the order might have been, computed when somebody asks. */
  robustness: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(robustnessViewSchema)
    .query(async ({ ctx: { runtime, device, limits }, input }) => {
      limits.spend('coefficients', device.id, runtime.clock.now());
      const { facts } = reading({ runtime, device }, input.id);
      const { snapshot, reconciliation } = await readResult(runtime, facts);
      return robustnessView({
        snapshot,
        reconciliation,
        robustness: await readRobustness(runtime, facts),
        anonymous: facts.plan.discussion === 'anonymous',
      });
    }),
});
