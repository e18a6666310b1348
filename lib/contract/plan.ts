import { z } from 'zod';
import { idSchema } from './fields';

/** What the panel agrees on before the first score, besides sheet, seats and pick order. */
export const planSchema = z.strictObject({
  /** panel: several evaluators towards a decision; lesson: a learner's cards beside a mentor's, shown to both at the mentor's lock. */
  kind: z.enum(['panel', 'lesson']),
  /** The learner's seat in a lesson; null in a panel. */
  learnerSeatId: idSchema.nullable(),
  /** After the reveal: seats by role, or counts only (BL9). */
  discussion: z.enum(['roles', 'anonymous']),
  /** From photographs: whether seats see which puppy is which before the reveal, or a code of their own for each. */
  identity: z.enum(['shown', 'coded']),
  /** One puppy comes to the table a second time, later in the order. */
  silentRepeat: z.boolean(),
  /** Hours since the litter was last fed; null when nobody said. */
  hoursSinceMeal: z.number().min(0).max(72).nullable(),
  /** Batches of second looks agreed for one place; after them a place that is neither settled nor known to be equal is told as not settled. */
  lookBatches: z.int().min(1).max(6),
});
export type Plan = z.infer<typeof planSchema>;

/** What every seat sees of it: not whether a puppy comes twice, nor what is agreed for after the reveal. */
export const planFaceSchema = planSchema.pick({
  kind: true,
  learnerSeatId: true,
  discussion: true,
  identity: true,
  hoursSinceMeal: true,
});
export type PlanFace = z.infer<typeof planFaceSchema>;

export const usualPlan: Plan = {
  kind: 'panel',
  learnerSeatId: null,
  discussion: 'roles',
  identity: 'shown',
  silentRepeat: false,
  hoursSinceMeal: null,
  lookBatches: 3,
};

/** One puppy on one criterion. */
export const cellSchema = z.strictObject({ puppyId: idSchema, criterion: z.string() });
export type Cell = z.infer<typeof cellSchema>;
