import { z } from 'zod';
import { revokeDevice } from '#db/queries/revokeDevice';
import { memberProcedure } from '../trpc';

/** Ends this device's session at once, sockets included. */
export const leave = memberProcedure.input(z.void()).output(z.strictObject({ left: z.literal(true) })).mutation(({ ctx }) => {
  revokeDevice(ctx.runtime.db, ctx.device.id, ctx.runtime.clock.now());
  ctx.setSession('');
  ctx.runtime.hub.dismiss(ctx.device.id);
  return { left: true as const };
});
