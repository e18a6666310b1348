import { z } from 'zod';
import { idSchema } from '#lib/contract/fields';
import { practiceAnswerSchema, practiceViewSchema } from '#lib/contract/practice';
import { lockPractice } from '../commands/cards';
import { readPractice } from '../reveal/lessons';
import { ownSeat } from '../write/writeEvaluation';
import { accessTo } from './access';
import { done, doneSchema, memberProcedure, router } from './trpc';

export const practiceRouter = router({
  /** The asker's own practice, and the others' from its lock on. */
  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(practiceViewSchema)
    .query(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      return readPractice(ctx.runtime, access.facts, { seat: ownSeat(access), deviceId: ctx.device.id });
    }),

  lock: memberProcedure
    .input(z.strictObject({ id: idSchema, answers: z.array(practiceAnswerSchema).min(1).max(8) }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      lockPractice(ctx, { evaluationId: input.id, answers: input.answers });
      return done;
    }),
});
