import { z } from 'zod';
import { line } from '#lib/contract/text';
import { endOtherOwnerDevices } from '../../commands/endDevices';
import { setPassphrase as command } from '../../commands/ownerSecret';
import { ownerProcedure } from '../trpc';

/**
 * Sets or changes the passphrase; the recovery codes are answered this once. `current` is asked for when one is set, but for
 * whoever has just come by the terminal's link or a recovery code. At least 15 characters, as NIST SP 800-63B-4 asks of a
 * secret that stands alone; no rule on which.
 */
export const setPassphrase = ownerProcedure
  .input(z.strictObject({ current: line(200), passphrase: line(200, 15), endOthers: z.boolean() }))
  .output(z.strictObject({ recoveryCodes: z.array(z.string()) }))
  .mutation(async ({ ctx, input: { endOthers, ...secret } }) => {
    const recoveryCodes = await command(ctx.runtime, ctx, { ...secret, device: ctx.device });
    if (endOthers) endOtherOwnerDevices(ctx.runtime, ctx.device);
    return { recoveryCodes };
  });
