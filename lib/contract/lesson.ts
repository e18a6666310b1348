import { z } from 'zod';
import { daySchema, idSchema } from './fields';

const figureSchema = z.union([
  z.strictObject({ value: z.number(), low: z.number(), high: z.number() }),
  z.strictObject({ undefined: z.string() }),
]);

/** A learner's cards beside a mentor's, for the two of them. Differences are learner less mentor, in points (degrees where two-sided). */
export const lessonViewSchema = z.strictObject({
  learner: idSchema,
  mentor: idSchema,
  level: figureSchema,
  gap: figureSchema,
  criteria: z.array(
    z.strictObject({
      criterion: z.string(),
      puppies: z.int(),
      difference: z.number().nullable(),
      /** What chance alone would stay within, over all criteria of a lesson, in 90 of 100. */
      expected: z.number().nullable(),
      beyond: z.boolean(),
    }),
  ),
  picks: z.array(
    z.strictObject({
      slotId: idSchema,
      learnersPuppy: idSchema.nullable(),
      mentorsPuppy: idSchema.nullable(),
      by: z.array(z.strictObject({ criterion: z.string(), share: z.number() })),
      sentence: z.string(),
    }),
  ),
  /** Criteria to look at next time, at most three; empty when nothing stands out. */
  lookAt: z.array(z.string()),
  sentences: z.array(z.string()),
});
export type LessonView = z.infer<typeof lessonViewSchema>;

export const lessonProgressSchema = z.strictObject({
  litters: z.int(),
  lessons: z.array(z.strictObject({ heldOn: daySchema, gap: z.number() })),
  mean: figureSchema,
  change: figureSchema,
});
