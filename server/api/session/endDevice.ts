import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { endOwnDevice } from '../../commands/endDevices';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** Ends another device of the asker's own, at once. */
export const endDevice = memberProcedure
  .input(z.strictObject({ deviceId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx: { runtime, device }, input }) => {
    endOwnDevice(runtime, device, input.deviceId);
    return done;
  });
