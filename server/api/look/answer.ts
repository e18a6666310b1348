import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { lookAnswerInputSchema } from '#lib/contract/lookView';
import { answerLook } from '../../commands/answerLook';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const answer = memberProcedure
  .input(z.strictObject({ id: idSchema, answer: lookAnswerInputSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    const seat = ownSeat(accessTo(ctx, input.id));
    answerLook(ctx.runtime, { evaluationId: input.id, seatId: seat.id, deviceId: ctx.device.id, answer: input.answer });
    return done;
  });
