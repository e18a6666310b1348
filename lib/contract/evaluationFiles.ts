import { z } from 'zod';
import { purposeKeySchema } from './setup';

const fileSchema = z.strictObject({
  name: z.string(),
  /** What it holds, for whoever chooses. */
  holds: z.string(),
  /** Comma-separated (RFC 4180), in UTF-8 with a byte order mark. */
  text: z.string(),
});

/** What a revealed evaluation gives away as files, and how its scores are worked out again outside. */
export const evaluationFilesSchema = z.strictObject({
  files: z.array(fileSchema),
  /** Arguments of the command `reconcile` for a file of scores, one line a purpose. */
  commands: z.array(z.strictObject({ purpose: purposeKeySchema, command: z.string() })),
  /** True in an anonymous panel, whose files hold no seat's answers but the viewer's own. */
  ownOnly: z.boolean(),
});
export type EvaluationFiles = z.infer<typeof evaluationFilesSchema>;
