import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { measurementInputSchema } from '#lib/contract/photo';
import { markPhoto } from '../../commands/markPhoto';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Keeps the landmarks of one ratio as this seat put them. `measurementId` is made by the device; the same id again changes nothing. */
export const measure = memberProcedure
  .input(z.strictObject({ id: idSchema, measurementId: idSchema, photoId: idSchema, measurement: measurementInputSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, measurementId, photoId, measurement } }) => {
    const seat = ownSeat(accessTo(ctx, id));
    markPhoto(ctx.runtime, { evaluationId: id, seat, deviceId: ctx.device.id, mark: { kind: 'measure', id: measurementId, photoId, measurement } });
    return done;
  });
