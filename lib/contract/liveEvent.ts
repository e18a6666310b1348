import { z } from 'zod';
import { evaluationPhaseSchema } from '../evaluation/phase';
import { idSchema } from './fields';

/** A doorbell (BL3): ids, a phase and a version, never a score. The client refetches through the one authorised path. */
export const liveEventSchema = z.strictObject({
  evaluation: idSchema,
  audience: z.enum(['all', 'own']),
  phase: evaluationPhaseSchema,
  version: z.int(),
  /** The showing on the table: an id, so that every device can follow before it has refetched. */
  table: idSchema.nullable(),
});
export type LiveEvent = z.infer<typeof liveEventSchema>;
