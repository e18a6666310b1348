import { z } from 'zod';
import { writesStopped } from '#db/open';
import { storageViewSchema } from '#lib/contract/storageView';
import { ownerProcedure, router } from './trpc';

export const storageRouter = router({
  /** For the owner's desk: a backup that fails must not fail unseen. */
  get: ownerProcedure
    .input(z.void())
    .output(storageViewSchema)
    .query(({ ctx }) => ({
      writesStopped: writesStopped(ctx.runtime.db),
      backups: ctx.runtime.backups.state(),
    })),
});
