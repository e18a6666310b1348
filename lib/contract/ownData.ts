import { z } from 'zod';
import { discussionNoteSchema, recordEntrySchema } from './decisionView';
import { entryBodySchema } from './entry';
import { idSchema } from './fields';
import { seatKindSchema } from './setup';

/** Everything kept about one seat's person, for that person: what she is called, what she entered and wrote, what she did. */
export const ownDataSchema = z.strictObject({
  evaluation: z.string(),
  seat: z.strictObject({ id: idSchema, label: z.string(), kind: seatKindSchema, interest: z.string() }),
  devices: z.array(z.strictObject({ createdAt: z.int(), seenAt: z.int(), cameBy: z.string() })),
  entries: z.array(
    z.strictObject({
      roundId: idSchema,
      subject: idSchema,
      body: entryBodySchema,
      status: z.string(),
      madeAt: z.int(),
      receivedAt: z.int(),
    }),
  ),
  notes: z.array(discussionNoteSchema),
  record: z.array(recordEntrySchema),
});
