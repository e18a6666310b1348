import { z } from 'zod';
import { countRecoveryCodes, getPassphrase } from '#db/queries/ownerSecrets';
import { line } from '#lib/contract/fields';
import { endOtherOwnerDevices } from '../commands/devices';
import { setPassphrase } from '../commands/owner';
import { ownerProcedure, router } from './trpc';

export const ownerRouter = router({
  /** Whether the owner has a passphrase, and how many recovery codes are left. */
  get: ownerProcedure
    .input(z.void())
    .output(z.strictObject({ passphraseSetAt: z.int().nullable(), recoveryCodes: z.int() }))
    .query(({ ctx: { runtime } }) => ({
      passphraseSetAt: getPassphrase(runtime.db)?.setAt ?? null,
      recoveryCodes: countRecoveryCodes(runtime.db),
    })),

  /**
   * Sets or changes the passphrase; the recovery codes are answered this once. `current` is asked for when one is set, but for
   * whoever has just come by the terminal's link or a recovery code. At least 15 characters, as NIST SP 800-63B-4 asks of a
   * secret that stands alone; no rule on which.
   */
  setPassphrase: ownerProcedure
    .input(z.strictObject({ current: line(200), passphrase: line(200, 15), endOthers: z.boolean() }))
    .output(z.strictObject({ recoveryCodes: z.array(z.string()) }))
    .mutation(async ({ ctx, input: { endOthers, ...secret } }) => {
      const recoveryCodes = await setPassphrase(ctx.runtime, ctx, { ...secret, device: ctx.device });
      if (endOthers) endOtherOwnerDevices(ctx.runtime, ctx.device);
      return { recoveryCodes };
    }),
});
