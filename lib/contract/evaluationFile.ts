import { z } from 'zod';
import { hashSchema, recordHeadSchema } from './commitment';
import { evaluationRows, type EvaluationTable } from './evaluationRows';
import { idSchema } from './fields';
import { evaluationFileLimits } from './fileLimits';

/** Rises with any change of what a file holds; a file of another version is refused unread. */
export const evaluationFileVersion = 1;

/** The text inside a zip, beside a folder `pictures/`. */
export const evaluationFileName = 'evaluation.json';

type RowsOf<T extends EvaluationTable> = z.ZodArray<(typeof evaluationRows)[T]>;

// Each table's rows as an array; Object.fromEntries forgets which name goes with which.
const tables = Object.fromEntries(
  Object.entries(evaluationRows).map(([name, row]) => [name, z.array(row)]),
) as unknown as { [T in EvaluationTable]: RowsOf<T> };

const lineSchema = z.strictObject({
  seq: z.int().min(1),
  at: z.int(),
  actor: z.string().max(20_000),
  kind: z.string().max(200),
  body: z.string().max(20_000),
  previous_hash: z.union([hashSchema, z.literal('')]),
  hash: hashSchema,
});

const pictureSchema = z.strictObject({
  photo: idSchema,
  name: z.string().regex(/^pictures\/[0-9a-f]{64}\.(webp|mp4|webm)$/),
  sha256: hashSchema,
  bytes: z.int().min(1).max(evaluationFileLimits.pictureBytes),
});

/** Only so far is a file read before its version is known. */
export const evaluationFileHeadSchema = z.object({ format: z.literal('evenstack evaluation'), version: z.int() });

/** One revealed evaluation whole: what the check of a data file needs, and its pictures by the hash of the bytes beside it. */
export const evaluationFileSchema = z.strictObject({
  format: z.literal('evenstack evaluation'),
  version: z.literal(evaluationFileVersion),
  /** The newest line of the record it was taken from, when it was, and how many lines of that record are here. */
  origin: z.strictObject({ at: z.int(), head: recordHeadSchema, lines: z.int().min(1) }),
  lines: z.array(lineSchema),
  rows: z.strictObject(tables),
  pictures: z.array(pictureSchema).max(evaluationFileLimits.pictures),
});
export type EvaluationFile = z.infer<typeof evaluationFileSchema>;
export type EvaluationFileRows = EvaluationFile['rows'];
export type EvaluationFileLine = EvaluationFile['lines'][number];

/** What is told of an imported evaluation wherever it is shown. */
export const importedSchema = z.strictObject({ at: z.int(), writtenAt: z.int(), head: recordHeadSchema });
export type Imported = z.infer<typeof importedSchema>;
