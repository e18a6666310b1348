import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { importPreviewSchema } from '#lib/contract/importView';
import { planImport } from '../../commands/planImport';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** Every row's fate, before anything is written. */
export const previewImport = memberProcedure
  .input(z.strictObject({ id: idSchema, text: z.string().max(200_000) }))
  .output(importPreviewSchema)
  .mutation(({ ctx, input }) => {
    const access = accessTo(ctx, input.id);
    return planImport(ctx.runtime, { facts: access.facts, seat: ownSeat(access), deviceId: ctx.device.id, text: input.text }).preview;
  });
