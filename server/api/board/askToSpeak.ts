import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { askToSpeak as raise } from '../../commands/askToSpeak';
import { reading } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** A seat raises its own hand; it, or whoever leads, takes it down. */
export const askToSpeak = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema, up: z.boolean() }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, seatId, up } }) => {
    const { viewer } = reading(ctx, id);
    raise(ctx.runtime, { evaluationId: id, viewer, deviceId: ctx.device.id, seatId, up });
    return done;
  });
