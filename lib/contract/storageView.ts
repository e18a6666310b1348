import { z } from 'zod';

/** How safe the owner's data are: whether the server still writes, and how its backups go. */
export const storageViewSchema = z.strictObject({
  /** True after a failed disk, until the next start. */
  writesStopped: z.boolean(),
  /** Null where none are made, as in the demo. */
  backups: z
    .strictObject({
      lastAt: z.int().nullable(),
      kept: z.int(),
      failure: z.strictObject({ at: z.int(), diskFull: z.boolean() }).nullable(),
    })
    .nullable(),
});
export type StorageView = z.infer<typeof storageViewSchema>;
