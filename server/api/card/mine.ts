import { z } from 'zod';
import { listOwnAnswers } from '#db/queries/listOwnAnswers';
import { answerSchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/id';
import { readsOnly } from '#lib/evaluation/readsOnly';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** BL1: the asker's own answers, and no parameter to ask for another's. */
export const mine = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.strictObject({ roundId: idSchema.nullable(), answers: z.array(answerSchema) }))
  .query(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    const seat = ownSeat(access);
    const { round } = access.facts;
    if (!round) return { roundId: null, answers: [] };
    const answers = listOwnAnswers(ctx.runtime.db, { seatId: seat.id, roundId: round.id, deviceId: readsOnly(round.state, seat, ctx.device.id) });
    return { roundId: round.id, answers };
  });
