import { z } from 'zod';
import { keySchema } from './entry';
import { idSchema } from './fields';

/** Two drawn puppies that every panel practises on. */
const practicePictureSchema = z.enum(['first', 'second']);
export type PracticePicture = z.infer<typeof practicePictureSchema>;

/** One practice score; null where the picture does not show it well enough. */
export const practiceAnswerSchema = z.strictObject({
  picture: practicePictureSchema,
  criterion: keySchema,
  value: z.int().min(-3).max(11).nullable(),
});
export type PracticeAnswer = z.infer<typeof practiceAnswerSchema>;

export const practiceViewSchema = z.strictObject({
  /** Criteria of the sheet that a side picture shows; empty when the sheet has none. */
  criteria: z.array(keySchema),
  /** Whether this seat may still practise. */
  open: z.boolean(),
  own: z.array(practiceAnswerSchema).nullable(),
  /** Cards of the other seats that have locked theirs, from one's own lock on; by seat, or nameless in an anonymous panel. */
  others: z.array(z.strictObject({ seat: idSchema.nullable(), answers: z.array(practiceAnswerSchema) })).nullable(),
});
export type PracticeView = z.infer<typeof practiceViewSchema>;
