import { z } from 'zod';
import { collarSchema } from './collar';
import { sexSchema } from './litter';
import { addendumSchema } from './addendum';
import { holdChoiceSchema, veterinaryAnswerSchema } from './decisionView';
import { purposeKeySchema } from './setup';
import { daySchema, idSchema, line } from './fields';

const toldSchema = z.strictObject({ criterion: z.string(), words: z.string() });

/** What goes along with a home's link by the breeder's own choice. */
export const homeAlongSchema = z.strictObject({ contact: line(160), photoId: idSchema.nullable() });
export type HomeAlong = z.infer<typeof homeAlongSchema>;

/** What one puppy's home reads: this puppy, what was found on it and when to look again. No score, and nothing of its littermates. */
export const homeNoteSchema = z.strictObject({
  litterName: z.string(),
  breed: z.string(),
  puppy: z.strictObject({ name: z.string(), sex: sexSchema, collar: collarSchema, secondMark: z.string() }),
  whelpedOn: daySchema,
  seenOn: daySchema,
  /** What it was taken for; null when it was not picked. */
  purpose: purposeKeySchema.nullable(),
  /** Digits of the chip, if any are known. */
  chipDigits: z.string(),
  /** The last weighing up to the day it was looked over; null when there is none. */
  weight: z.strictObject({ day: daySchema, grams: z.int() }).nullable(),
  /** Whatever a seat found to watch or not normal, in words, whether it holds a keep or not, with the veterinary answers to it, oldest first. */
  findings: z.array(
    z.strictObject({
      check: z.string(),
      answers: z.array(z.string()),
      said: z.array(veterinaryAnswerSchema.omit({ by: true })),
    }),
  ),
  /** Checks that a seat made and that found nothing. */
  normal: z.array(z.string()),
  /** Checks that nobody made, whether the sheet asked for them or not. */
  unexamined: z.array(z.string()),
  /** What the scores say without a score: ends of scales for a veterinary surgeon to see, and what came out as asked. */
  toShow: z.array(toldSchema),
  strengths: z.array(toldSchema),
  /** How the breeder is reached, where she gives it; empty where she does not. */
  contact: z.string(),
  /** The one picture that goes along, small, as a data address; null without one. */
  picture: z.string().nullable(),
  /** How it behaves, by whoever lives with it, as the breeder wrote it down. */
  behaviour: z.array(addendumSchema.pick({ id: true, text: true, by: true, at: true })),
  /** Veterinary answers and corrections about this puppy from after the sealing, oldest first. */
  later: z.array(
    z.strictObject({
      id: idSchema,
      check: z.string().nullable(),
      choice: holdChoiceSchema.nullable(),
      text: z.string(),
      at: z.int(),
    }),
  ),
  lookAgain: z.array(
    z.strictObject({ key: z.enum(['twelve-weeks', 'six-months', 'twelve-months', 'two-years']), day: daySchema }),
  ),
});
export type HomeNote = z.infer<typeof homeNoteSchema>;
