import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { practiceAnswerSchema } from '#lib/contract/practice';
import { lockPractice } from '../../commands/lockPractice';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const lock = memberProcedure
  .input(z.strictObject({ id: idSchema, answers: z.array(practiceAnswerSchema).min(1).max(8) }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    lockPractice(ctx.runtime, { evaluationId: input.id, seatId: ownSeat(accessTo(ctx, input.id)).id, deviceId: ctx.device.id, answers: input.answers });
    return done;
  });
