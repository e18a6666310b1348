import { z } from 'zod';
import { idSchema } from '#lib/contract/fields';
import { lessonProgressSchema, lessonViewSchema } from '#lib/contract/lesson';
import { readLesson, readProgress } from '../reveal/lessons';
import { ownSeat } from '../write/writeEvaluation';
import { accessTo } from './access';
import { memberProcedure, router } from './trpc';

export const lessonRouter = router({
  /** For learner and mentor, from the mentor's lock on. */
  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(lessonViewSchema)
    .query(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      return readLesson(ctx.runtime, access.facts, ownSeat(access).id);
    }),

  /** The learner over litters, for learner and mentor. */
  progress: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(lessonProgressSchema)
    .query(({ ctx, input }) => {
      const access = accessTo(ctx, input.id);
      const { litters, lessons, mean, change } = readProgress(ctx.runtime, access.facts, {
        seatId: ownSeat(access).id,
        owner: access.viewer.owner,
      });
      return { litters, lessons: [...lessons], mean: { ...mean }, change: { ...change } };
    }),
});
