import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { importPreviewSchema } from '#lib/contract/importView';
import { importScores as command } from '../../commands/importScores';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

export const importScores = memberProcedure
  .input(z.strictObject({ id: idSchema, text: z.string().max(200_000) }))
  .output(importPreviewSchema)
  .mutation(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    return command(ctx.runtime, { facts: access.facts, seat: ownSeat(access), text: input.text, deviceId: ctx.device.id });
  });
