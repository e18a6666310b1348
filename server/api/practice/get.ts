import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { practiceViewSchema } from '#lib/contract/practice';
import { readPractice } from '../../reveal/readPractice';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** The asker's own practice, and the others' from its lock on. */
export const get = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(practiceViewSchema)
  .query(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    return readPractice(ctx.runtime, access.facts, { seat: ownSeat(access), deviceId: ctx.device.id });
  });
