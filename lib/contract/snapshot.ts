import { z } from 'zod';
import { sheetSchema } from '../sheet/sheet';
import { answerSchema } from './entry';
import { puppyFaceSchema, showingSchema, slotViewSchema } from './evaluationView';
import { idSchema } from './fields';
import { cellSchema } from './plan';
import { mediumSchema, purposeSchema, seatKindSchema } from './setup';

/** Immutable: everything a result may be computed from, as it stood when the round was revealed (BL6). */
export const snapshotSchema = z.strictObject({
  evaluationId: idSchema,
  roundId: idSchema,
  medium: mediumSchema,
  revealedAt: z.int(),
  sheet: sheetSchema,
  puppies: z.array(puppyFaceSchema),
  seats: z.array(
    z.strictObject({
      id: idSchema,
      label: z.string(),
      kind: seatKindSchema,
      position: z.int(),
      locked: z.boolean(),
      reissued: z.boolean(),
      /** A card of it was typed from paper by the owner. */ typed: z.boolean().default(false),
    }),
  ),
  showings: z.array(showingSchema),
  /** A second round's cells; null in a round about the whole sheet. */
  cells: z.array(cellSchema).nullable().default(null),
  /** True where seats saw a code of their own for each puppy. */
  coded: z.boolean().default(false),
  slots: z.array(slotViewSchema),
  purposes: z.array(purposeSchema),
  answers: z.array(answerSchema.extend({ seatId: idSchema })),
});
export type Snapshot = z.infer<typeof snapshotSchema>;
