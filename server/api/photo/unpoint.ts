import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { markPhoto } from '../../commands/markPhoto';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Takes one's own mark back. */
export const unpoint = memberProcedure
  .input(z.strictObject({ id: idSchema, pointerId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, pointerId } }) => {
    const seat = ownSeat(accessTo(ctx, id));
    markPhoto(ctx.runtime, { evaluationId: id, seat, deviceId: ctx.device.id, mark: { kind: 'unpoint', id: pointerId } });
    return done;
  });
