import { z } from 'zod';
import { writesStopped } from '#db/writesStopped';
import { storageViewSchema } from '#lib/contract/storageView';
import { ownerProcedure } from '../trpc';

/** For the owner's desk: a backup that fails must not fail unseen. */
export const get = ownerProcedure.input(z.void()).output(storageViewSchema).query(({ ctx }) => ({
  writesStopped: writesStopped(ctx.runtime.db),
  backups: ctx.runtime.backups.state(),
}));
