import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lessonProgressSchema } from '#lib/contract/lesson';
import { readProgress } from '../../reveal/readLesson';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** The learner over litters, for learner and mentor. */
export const progress = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(lessonProgressSchema)
  .query(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    const { litters, lessons, mean, change } = readProgress(ctx.runtime, access.facts, { seatId: ownSeat(access).id, owner: access.viewer.owner });
    return { litters, lessons: [...lessons], mean: { ...mean }, change: { ...change } };
  });
