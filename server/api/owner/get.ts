import { z } from 'zod';
import { countRecoveryCodes } from '#db/queries/countRecoveryCodes';
import { getPassphrase } from '#db/queries/getPassphrase';
import { ownerProcedure } from '../trpc';

/** Whether the owner has a passphrase, and how many recovery codes are left. */
export const get = ownerProcedure
  .input(z.void())
  .output(z.strictObject({ passphraseSetAt: z.int().nullable(), recoveryCodes: z.int() }))
  .query(({ ctx: { runtime } }) => ({ passphraseSetAt: getPassphrase(runtime.db)?.setAt ?? null, recoveryCodes: countRecoveryCodes(runtime.db) }));
