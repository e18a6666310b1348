import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lessonViewSchema } from '#lib/contract/lesson';
import { readLesson } from '../../reveal/readLesson';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** For learner and mentor, from the mentor's lock on. */
export const get = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(lessonViewSchema)
  .query(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    return readLesson(ctx.runtime, access.facts, ownSeat(access).id);
  });
