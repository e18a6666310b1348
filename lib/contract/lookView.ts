import { z } from 'zod';
import { roundStateSchema } from '../evaluation/phase';
import { keySchema } from './entry';
import { idSchema } from './fields';
import { mediumSchema } from './setup';

const lookChoiceSchema = z.enum(['first', 'second', 'tie']);

/** One second look as one seat sees it: sides as set up; other seats' answers never, not even their number, before it closes (BL8). */
export const lookViewSchema = z.strictObject({
  id: idSchema,
  /** Looks of one batch open and close together. */
  batchId: idSchema,
  slotId: idSchema,
  medium: mediumSchema,
  state: roundStateSchema,
  firstPuppyId: idSchema,
  secondPuppyId: idSchema,
  /** Who stands on the left, seen from the evaluators; from photographs, for this seat. Swapped on repeat. */
  leftPuppyId: idSchema,
  repeat: z.boolean(),
  mayAnswer: z.boolean(),
  own: z.strictObject({ choice: lookChoiceSchema, criterion: keySchema.nullable() }).nullable(),
  /** Filled when revealed; without seats in an anonymous panel. */
  answers: z
    .array(z.strictObject({ seat: idSchema.nullable(), choice: lookChoiceSchema, criterion: keySchema.nullable() }))
    .nullable(),
});
export type LookView = z.infer<typeof lookViewSchema>;

export const lookAnswerInputSchema = z.strictObject({
  id: idSchema,
  lookId: idSchema,
  choice: lookChoiceSchema,
  criterion: keySchema.nullable(),
  madeAt: z.int().min(0),
});

/** A batch worth opening: pairs in the order they would be shown, and the chance of the right pick now and what all answers should add to it. */
export const lookProposalSchema = z.union([
  z.strictObject({
    pairs: z.array(z.strictObject({ firstPuppyId: idSchema, secondPuppyId: idSchema, repeat: z.boolean() })),
    now: z.number(),
    gain: z.number(),
  }),
  z.strictObject({ undefined: z.string() }),
]);
