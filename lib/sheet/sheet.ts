import * as z from 'zod/mini';
import { type CheckAnswer, type CheckKey, checkKeys } from './check';
import { checkByKey } from './checkCatalogue';
import { criterionSchema, nameLimit, text } from './criterion';

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
  criteria: z.array(criterionSchema).check(
    z.minLength(1),
    z.maxLength(40),
    z.refine((list) => unique(list.map(({ key }) => key)), 'two criteria share a key'),
  ),
  checks: z.array(z.enum(checkKeys)).check(z.refine(unique, 'a check is listed twice')),
});
export type Sheet = z.infer<typeof sheetSchema>;

type QualityRule = { readonly twoSided: boolean; readonly low: number; readonly high: number };

/**
 * How good a score is, in points of the sheet's scale.
 * One-sided: the score itself. Two-sided, a signed degree d in -3..+3: high - (high - low) / 3 * |d|,
 * so that as asked (0) is the top and marked either way (3) the bottom.
 */
export function quality(score: number, { twoSided, low, high }: QualityRule): number {
  return twoSided ? high - ((high - low) / 3) * Math.abs(score) : score;
}

/** The answer a check offers under this key, if it does. */
export function answerOf(check: CheckKey, answer: string): CheckAnswer | undefined {
  return checkByKey(check)?.answers.find(({ key }) => key === answer);
}
