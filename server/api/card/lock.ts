import { z } from 'zod';
import { hashSchema, nonceSchema } from '#lib/contract/commitment';
import { idSchema } from '#lib/contract/id';
import { lockSeat } from '../../commands/lockSeat';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** `commitment` is made by the device over the cards as it shows them; refused as out-of-step when the server holds others. */
export const lock = memberProcedure
  .input(z.strictObject({ id: idSchema, nonce: nonceSchema, commitment: hashSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input }) => {
    const seat = ownSeat(accessTo(ctx, input.id));
    const promised = { nonce: input.nonce, commitment: input.commitment };
    lockSeat(ctx.runtime, { evaluationId: input.id, seatId: seat.id, deviceId: ctx.device.id, promised });
    return done;
  });
