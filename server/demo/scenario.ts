import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { collarSchema } from '#lib/contract/collar';
import { demoRoleSchema } from '#lib/contract/demoView';
import { keySchema } from '#lib/contract/entry';
import { litterInputSchema, sexSchema } from '#lib/contract/litter';
import { seatInputSchema, slotInputSchema, weightsSchema } from '#lib/contract/setup';

const puppySchema = z.strictObject({
  name: z.string(),
  sex: sexSchema,
  collar: collarSchema,
  secondMark: z.string(),
  /** True merit in points of the scale, 0 for a middling puppy. */
  merit: z.number(),
  birthGrams: z.int(),
});

const seatSchema = seatInputSchema.omit({ label: true }).extend({
  role: demoRoleSchema,
  /** Points added to every one-sided score; negative is severe. */
  severity: z.number(),
  /** SD of a single score around what the seat means. */
  noise: z.number(),
  /** Degrees added to every two-sided score. */
  lean: z.number(),
  /** Points a seat adds for a puppy it has a soft spot for. */
  liking: z.record(z.string(), z.number()),
  cannotJudge: z.array(keySchema),
});

const ofSeat = { role: demoRoleSchema, puppy: z.string() };

const daySchema = z.strictObject({
  name: z.string(),
  sheet: z.enum(['full', 'short']),
  ageDays: z.int(),
  seed: z.int(),
  tableNote: z.string(),
  /** Names, as they come to the table. */
  order: z.array(z.string()),
  /** Puppies that a seat has no card for. */
  missed: z.partialRecord(demoRoleSchema, z.array(z.string())),
  /** Answers that are not simply normal. */
  checks: z.array(z.strictObject({ ...ofSeat, check: keySchema, answer: keySchema, detail: z.string() })),
  manners: z.record(z.string(), z.enum(['relaxed', 'tense', 'fought'])),
  unfair: z.array(z.strictObject({ ...ofSeat, why: z.string() })),
  notes: z.array(z.strictObject({ ...ofSeat, criterion: keySchema.nullable(), text: z.string() })),
  choices: z.array(z.strictObject({ ...ofSeat, slot: z.int(), reason: z.string(), chance: z.int().nullable() })),
});

/** What happened after the reveal of the evaluation to read. A null choice is "cannot separate". */
const storySchema = daySchema.extend({
  clearances: z.array(
    z.strictObject({
      puppy: z.string(),
      check: keySchema,
      answer: z.string(),
      by: z.string(),
      /** At which age to look again; null clears. */ againAgeDays: z.int().nullable(),
    }),
  ),
  /** How a puppy behaves, by whoever lives with it. */
  behaviours: z.array(z.strictObject({ puppy: z.string(), by: z.string(), text: z.string() })),
  discussion: z.array(
    z.strictObject({
      role: demoRoleSchema,
      slot: z.int(),
      puppy: z.string().nullable(),
      criterion: keySchema.nullable(),
      text: z.string(),
    }),
  ),
  looks: z.array(
    z.strictObject({
      slot: z.int(),
      pair: z.tuple([z.string(), z.string()]),
      answers: z.array(
        z.strictObject({ role: demoRoleSchema, choice: z.string().nullable(), criterion: keySchema.nullable() }),
      ),
    }),
  ),
  picks: z.array(z.strictObject({ ...ofSeat, slot: z.int(), reason: z.string(), preference: z.boolean() })),
});

const scenarioSchema = z.strictObject({
  about: z.string(),
  seed: z.int(),
  litter: litterInputSchema.omit({ whelpedOn: true }),
  puppies: z.array(puppySchema),
  seats: z.array(seatSchema),
  /** Weights that are not 1, by purpose. */
  weights: z.strictObject({ keep: weightsSchema, working: weightsSchema }),
  slots: z.array(slotInputSchema.omit({ seatId: true }).extend({ role: demoRoleSchema.nullable() })),
  sealed: storySchema,
  open: daySchema,
});

export type Scenario = z.infer<typeof scenarioSchema>;
export type ScenarioSeat = Scenario['seats'][number];
/** One evaluation of the scenario, up to its reveal. */
export type ScenarioDay = z.infer<typeof daySchema>;
export type ScenarioStory = z.infer<typeof storySchema>;

/** Reads the invented litter. Throws when the file is not what it should be. */
export function readScenario(file: string): Scenario {
  return scenarioSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
}

/** The day of a moment, in UTC: YYYY-MM-DD. */
export const isoDay = (at: number): string => new Date(at).toISOString().slice(0, 10);
