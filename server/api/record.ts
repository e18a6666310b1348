import { z } from 'zod';
import { findRecordHash, listRecord } from '#db/queries/record';
import { withoutNames } from '#lib/blind/evaluationView';
import { withoutPaperSeat } from '#lib/blind/paperView';
import { hashSchema } from '#lib/contract/commitment';
import { recordEntrySchema } from '#lib/contract/decisionView';
import { evaluationFilesSchema } from '#lib/contract/evaluationFiles';
import { idSchema } from '#lib/contract/fields';
import { seesCodes } from '#lib/evaluation/seats';
import { standingOf } from '../commands/decisions';
import { evaluationFiles } from '../csv/evaluationFiles';
import { listLookViews } from '../reveal/looks';
import { readSnapshot } from '../reveal/results';
import { accessTo, reading } from './access';
import { memberProcedure, router } from './trpc';

export const recordRouter = router({
  /** What is revealed, as files to keep: a round's scores from its own reveal on, a look's answers once it is closed. Before the first reveal wrong-phase (BL6). */
  files: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(evaluationFilesSchema)
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      const { first, second } = readSnapshot(ctx.runtime, facts);
      const { holds, decisions } = standingOf(ctx.runtime, facts);
      const looks = listLookViews(ctx.runtime, facts, { viewer, deviceId: ctx.device.id });
      return evaluationFiles({
        first,
        second,
        looks,
        holds,
        decisions,
        anonymous: facts.plan.discussion === 'anonymous',
        viewerSeatId: viewer.seatId,
      });
    }),

  /**
   * The hash of one line of the record, for a device that saw it as the head and asks whether it still stands. The record is
   * one chain for the whole data file: a hash tells nothing of a line that belongs to another evaluation.
   */
  hashAt: memberProcedure
    .input(z.strictObject({ id: idSchema, seq: z.int().min(0).max(Number.MAX_SAFE_INTEGER) }))
    .output(z.strictObject({ hash: hashSchema.nullable() }))
    .query(({ ctx, input }) => {
      accessTo(ctx, input.id);
      return { hash: findRecordHash(ctx.runtime.db, input.seq) ?? null };
    }),

  /** What happened, in order: who opened, locked, revealed, decided. Never a score; to a seat that sees codes, never a puppy's name. */
  list: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(recordEntrySchema))
    .query(({ ctx, input }) => {
      const { facts, viewer } = accessTo(ctx, input.id);
      const all = listRecord(ctx.runtime.db, facts.id);
      const lines = facts.plan.discussion === 'anonymous' && !viewer.owner ? all.map(withoutPaperSeat) : all;
      return seesCodes(facts, viewer)
        ? lines.map((line) => ({ ...line, detail: withoutNames(line.detail, facts.puppies) }))
        : lines;
    }),
});
