import * as z from 'zod/mini';
import { checkKeys } from './check';
import { criterionSchema, nameLimit } from './criterion';
import { text } from './text';

const unique = (keys: readonly string[]): boolean => new Set(keys).size === keys.length;
/** A score has to fit the wire and the data file, whatever the sheet. */
const bound = z.int().check(z.gte(-3), z.lte(11));

const scale = z
  .strictObject({ low: bound, high: bound })
  .check(z.refine(({ low, high }) => high - low >= 2 && high - low <= 10, 'a scale has 3 to 11 steps'));

/**
 * What one evaluation scores: criteria on one scale, and the checks that go with them.
 * The overall impression is no criterion: it is asked last, and stays outside merit.
 */
export const sheetSchema = z.strictObject({
  name: text(nameLimit),
  scale,
  criteria: z
    .array(criterionSchema)
    .check(z.minLength(1), z.maxLength(40), z.refine((list) => unique(list.map(({ key }) => key)), 'two criteria share a key')),
  checks: z.array(z.enum(checkKeys)).check(z.refine(unique, 'a check is listed twice')),
});
export type Sheet = z.infer<typeof sheetSchema>;
