import { z } from 'zod';
import { idSchema } from './fields';
import { cellSchema } from './plan';
import { purposeKeySchema } from './setup';

const estimateSchema = z.strictObject({ value: z.number(), sd: z.number(), low: z.number(), high: z.number() });
const undefinedSchema = z.strictObject({ undefined: z.string() });
const maybeEstimateSchema = z.union([estimateSchema, undefinedSchema]);
const figureSchema = z.union([
  z.strictObject({ value: z.number(), low: z.number(), high: z.number() }),
  undefinedSchema,
]);
const chanceSchema = z.strictObject({ puppy: idSchema, probability: z.number() });

const meritSchema = z.strictObject({
  puppy: idSchema,
  estimate: z.number(),
  sd: z.number(),
  low: z.number(),
  high: z.number(),
  halfLow: z.number(),
  halfHigh: z.number(),
  mean: z.number().nullable(),
  ranks: z.array(z.number()),
});

const purposeResultSchema = z.strictObject({
  key: purposeKeySchema,
  merit: z.array(meritSchema),
  better: z.record(idSchema, z.record(idSchema, z.number())),
  level: estimateSchema,
  /** Plain sentence for the head of the picture, and why the order differs from the plain mean; null when it does not. */
  sentence: z.string(),
  meanSentence: z.string().nullable(),
});

const slotResultSchema = z.strictObject({
  slotId: idSchema,
  chances: z.array(chanceSchema),
  close: z.boolean(),
  candidates: z.array(chanceSchema),
  filledBy: idSchema.nullable(),
  sentence: z.string(),
  /** Where the second looks stand: open, settled, or the agreed batches used up without a puppy standing clear. */
  looks: z.strictObject({
    used: z.int(),
    agreed: z.int(),
    verdict: z.enum(['settled', 'equalWithinHalf', 'notSettled', 'goOn']),
    sentence: z.string(),
    /** Which candidates no look has compared; null while there is nothing to say. */ unlinked: z.string().nullable(),
  }),
});

/** Null in an anonymous panel. */
const whoSchema = idSchema.nullable();

/** One seat's score of one puppy on one criterion, as it stood when the round closed. */
const dotSchema = z.strictObject({
  puppy: idSchema,
  seat: whoSchema,
  value: z.number().nullable(),
  cannotJudge: z.boolean(),
});

const criterionResultSchema = z.strictObject({
  criterion: z.string(),
  /** Mean over puppies of the largest minus the smallest score, in points; null with fewer than two scores on every puppy. */
  spread: z.number().nullable(),
  /** Share of pairs of scores of one puppy that lie within one point; null as above. */
  withinOne: z.number().nullable(),
  seats: z.int(),
  /** low, medium, high or too-few, decided on the interval of the headline coefficient, never on its point. */
  band: z.enum(['low', 'medium', 'high', 'too-few']),
  dots: z.array(dotSchema),
});

const checkLineSchema = z.strictObject({
  puppy: idSchema,
  check: z.string(),
  answers: z.array(z.strictObject({ seat: whoSchema, answer: z.string(), detail: z.string() })),
  holds: z.boolean(),
});

const evaluatorLineSchema = z.strictObject({
  seat: idSchema,
  severity: maybeEstimateSchema,
  liking: maybeEstimateSchema,
  noise: maybeEstimateSchema,
  /** How it used the scale, went with the others, repeated itself and drifted over the showing order. */
  profile: z.strictObject({
    scaleUse: figureSchema,
    agreement: figureSchema,
    selfConsistency: figureSchema,
    drift: figureSchema,
  }),
  sentence: z.string(),
});

/** Worth talking about: what settling it could do for the place it could help most. */
const agendaLineSchema = z.strictObject({
  kind: z.enum(['closeCall', 'splitOnPuppy', 'splitOnCriterion', 'stackAgainstFree', 'splitCheck', 'oddEvaluator']),
  /** The cell it is about, where it is about one. */
  puppy: idSchema.nullable(),
  criterion: z.string().nullable(),
  slotId: idSchema,
  /** Chance of the right pick for that place, now and as expected once it is settled. */
  now: z.number(),
  settled: z.number(),
  sentence: z.string(),
});

/** Everything the board draws. Exists only from reveal on. */
export const boardViewSchema = z.strictObject({
  roundId: idSchema,
  revealedAt: z.int(),
  /** Counts only: no line names a seat, and evaluators holds the viewer's own alone. */
  anonymous: z.boolean(),
  purposes: z.array(purposeResultSchema),
  slots: z.array(slotResultSchema),
  /** Most worth it first, five at most. */
  agenda: z.array(agendaLineSchema),
  criteria: z.array(criterionResultSchema),
  checks: z.array(checkLineSchema),
  evaluators: z.array(evaluatorLineSchema),
  /** What the panel may want to ask of how seats scored, in sentences: two who answer alike, a criterion upside down. */
  seatNotes: z.array(z.string()),
  /** Overall impression and free stance stand outside merit. */
  asides: z.array(
    z.strictObject({ puppy: idSchema, seat: whoSchema, field: z.string(), value: z.number().nullable() }),
  ),
  notes: z.array(
    z.strictObject({ puppy: idSchema, seat: whoSchema, criterion: z.string().nullable(), text: z.string() }),
  ),
  choices: z.array(
    z.strictObject({
      slotId: idSchema,
      seat: whoSchema,
      puppy: idSchema.nullable(),
      reason: z.string(),
      chance: z.number().nullable(),
    }),
  ),
  unfair: z.array(z.strictObject({ puppy: idSchema, seat: whoSchema, why: z.string() })),
  /** The puppy that came twice: what each seat gave it the second time, in points (degrees where two-sided). */
  repeats: z.array(
    z.strictObject({
      puppy: idSchema,
      seat: whoSchema,
      cells: z.int(),
      alike: z.int(),
      shift: z.number().nullable(),
      difference: z.number(),
    }),
  ),
  notLocked: z.array(idSchema),
  /** Late entries kept beside the result, which itself stays blind (BL7). */
  lateEntries: z.int(),
  looks: z.strictObject({ answers: z.int() }),
  /** How a look is read, in points of this scale: its noise, and the difference a seat cannot tell. */
  lookSettings: z.strictObject({ noise: z.number(), tieHalfWidth: z.number() }),
  /** What a second round changed; null without one. Ranges in points, degrees where two-sided; null below two seats. */
  second: z
    .strictObject({
      revealedAt: z.int(),
      cells: z.array(
        z.strictObject({
          puppy: idSchema,
          criterion: z.string(),
          seats: z.int(),
          before: z.number().nullable(),
          after: z.number().nullable(),
          kind: z.enum(['together', 'oneVoice', 'apart', 'unchanged', 'tooFew']),
          /** The seat the others came over to. */
          voice: whoSchema,
        }),
      ),
      /** Of the way to each seat's first score, the share the others went. */
      pulls: z.array(z.strictObject({ seat: idSchema, pull: figureSchema })),
      sentence: z.string(),
    })
    .nullable(),
  /** Cells worth asking again, most worth it first; empty once a second round has been asked. */
  secondRoundCells: z.array(cellSchema),
  /** What this result was blind to, and what it was not (BL5). */
  blindTo: z.array(z.string()),
  engineVersion: z.string(),
});
export type BoardView = z.infer<typeof boardViewSchema>;

/** What else the numbers might have been, a sentence a line: with other assumptions, without each seat, with one more evaluator or look. */
export const robustnessViewSchema = z.strictObject({
  priors: z.array(z.string()),
  without: z.array(z.string()),
  settling: z.array(z.string()),
});
export type RobustnessView = z.infer<typeof robustnessViewSchema>;

const coefficientSchema = z.union([
  z.strictObject({ value: z.number(), low: z.number().nullable(), high: z.number().nullable() }),
  undefinedSchema,
]);

/** The drawer: coefficients with their intervals, computed when it opens. Names are keys of the agreement record. */
export const coefficientsViewSchema = z.strictObject({
  sheet: z.record(z.string(), coefficientSchema),
  byCriterion: z.record(z.string(), z.record(z.string(), coefficientSchema)),
});
export type CoefficientsView = z.infer<typeof coefficientsViewSchema>;
