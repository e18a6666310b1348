import { z } from 'zod';
import { holdChoiceSchema } from './decisionView';
import { keySchema } from './entry';
import { idSchema, line, paragraph } from './fields';

const text = paragraph(400).min(1);

/** How a puppy behaves is written while it is decided; the other three stand under a sealed record. */
export const addendumInputSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('behaviour'), puppyId: idSchema, text, by: line(80, 1) }),
  z.strictObject({
    kind: z.literal('veterinary'),
    puppyId: idSchema,
    check: keySchema,
    text,
    by: line(80, 1),
    choice: holdChoiceSchema,
  }),
  z.strictObject({ kind: z.literal('correction'), puppyId: idSchema.nullable(), text }),
  z.strictObject({ kind: z.literal('home'), puppyId: idSchema, text }),
]);
export type AddendumInput = z.infer<typeof addendumInputSchema>;

/** What the owner wrote beside a result: no score, and nothing is worked out from it. */
export const addendumSchema = z.strictObject({
  id: idSchema,
  kind: z.enum(['behaviour', 'veterinary', 'correction', 'home']),
  puppyId: idSchema.nullable(),
  check: keySchema.nullable(),
  choice: holdChoiceSchema.nullable(),
  text: z.string(),
  /** Who says so; empty where it is the owner. */
  by: z.string(),
  at: z.int(),
});
export type Addendum = z.infer<typeof addendumSchema>;
