import * as z from 'zod/mini';

/** Trimmed text of 1 to `most` characters. Owners type their own sheets, so every field has a limit. */
export const text = (most: number) => z.string().check(z.trim(), z.minLength(1), z.maxLength(most));

/** Where one stands, or what one uses, to score a criterion. A sheet runs through them in this order. */
export const views = ['side', 'front', 'rear', 'above', 'hands', 'head'] as const;
export type View = (typeof views)[number];

export const nameLimit = 80;
export const textLimit = 300;
export const labelLimit = 20;

const key = z.string().check(z.regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/), z.maxLength(40));
const name = text(nameLimit);
const sentence = text(textLimit);
const label = text(labelLimit);

const shared = {
  key,
  name,
  view: z.enum(views),
  /** Not offered to a seat that cannot touch. */
  handsOnly: z.boolean(),
  why: sentence,
  /** How far a reading at eight weeks can be leaned on: common practice, no published figure. */
  steadiness: z.strictObject({ level: z.enum(['low', 'medium', 'high']), note: sentence }),
  later: sentence,
  /** What shows it; the first is the best. */
  evidence: z.array(z.enum(['set-up', 'free-stance', 'movement', 'hands', 'photograph'])).check(
    z.minLength(1),
    z.maxLength(5),
    z.refine((kinds) => new Set(kinds).size === kinds.length, 'repeated evidence'),
  ),
  /** True where a second, optional score is asked for the puppy standing by itself. */
  freeStance: z.optional(z.boolean()),
};

/** Scored low to high on the sheet's scale; anchors say what is seen at its lowest, middle and highest step. */
const oneSided = z.strictObject({
  ...shared,
  twoSided: z.literal(false),
  anchors: z.strictObject({ low: sentence, middle: sentence, high: sentence }),
  labels: z.strictObject({ low: label, middle: label, high: label }),
});

/** Scored as a signed degree from -3 (too little) through 0 (as asked) to +3 (too much), whatever the scale. */
const twoSided = z.strictObject({
  ...shared,
  twoSided: z.literal(true),
  anchors: z.strictObject({ tooLittle: sentence, asked: sentence, tooMuch: sentence }),
  labels: z.strictObject({ tooLittle: label, tooMuch: label }),
});

/** One thing that is scored, with the words that tie each end of its scale to what the eye or hand finds. */
export const criterionSchema = z.discriminatedUnion('twoSided', [oneSided, twoSided]);
export type Criterion = z.infer<typeof criterionSchema>;

/** The criteria grouped by view in the order one goes round a puppy; the given order is kept within a view. */
export function byView(criteria: readonly Criterion[]): Criterion[] {
  return views.flatMap((view) => criteria.filter((criterion) => criterion.view === view));
}
