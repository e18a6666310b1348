import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { pointerInputSchema } from '#lib/contract/photo';
import { markPhoto } from '../../commands/markPhoto';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Points at a place on a picture. `pointerId` is made by the device; the same id again changes nothing. */
export const point = memberProcedure
  .input(z.strictObject({ id: idSchema, pointerId: idSchema, photoId: idSchema, pointer: pointerInputSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, pointerId, photoId, pointer } }) => {
    const seat = ownSeat(accessTo(ctx, id));
    markPhoto(ctx.runtime, { evaluationId: id, seat, deviceId: ctx.device.id, mark: { kind: 'point', id: pointerId, photoId, pointer } });
    return done;
  });
