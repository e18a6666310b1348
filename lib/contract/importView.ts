import { z } from 'zod';

/** What would become of one row of typed scores. Only `new`, `replaces`, `same` and `blank` let an import through. */
const rowFateSchema = z.enum([
  'new',
  'replaces',
  'same',
  'blank',
  'unknown-puppy',
  'unknown-criterion',
  'another-seat',
  'hands-only',
  'withdrawn',
  'off-step',
  'twice',
]);
export type RowFate = z.infer<typeof rowFateSchema>;

export const importPreviewSchema = z.strictObject({
  rows: z.array(
    z.strictObject({
      line: z.int(),
      puppy: z.string(),
      evaluator: z.string(),
      criterion: z.string(),
      score: z.number().nullable(),
      fate: rowFateSchema,
    }),
  ),
  /** True when every row can be taken; nothing is taken otherwise. */
  sound: z.boolean(),
});
export type ImportPreview = z.infer<typeof importPreviewSchema>;
