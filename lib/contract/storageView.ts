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
      /** Whether older ones had to be given up for want of room on the disk. */
      shortOfRoom: z.boolean(),
      /** The newest attempt failed: for the data, or only for pictures. */
      failure: z.strictObject({ at: z.int(), what: z.enum(['data', 'pictures']), diskFull: z.boolean() }).nullable(),
    })
    .nullable(),
});
