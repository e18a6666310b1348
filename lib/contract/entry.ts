import { z } from 'zod';
import { idSchema, line, paragraph } from './fields';

/** Keys of criteria and checks: short words typed by a catalogue or made for an owner's own criterion. */
export const keySchema = z.string().regex(/^[a-zA-Z][a-zA-Z0-9-]{0,39}$/);

/** A graded answer: a step of the scale, a signed degree -3..+3 for a two-sided criterion, or null with `cannotJudge`; null alone clears it. */
const gradedSchema = { value: z.int().min(-3).max(11).nullable() };

/** What a seat can say about one showing of one puppy, or (choice) about one slot. */
export const entryBodySchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('score'), criterion: keySchema, cannotJudge: z.boolean(), ...gradedSchema }),
  z.strictObject({ kind: z.literal('free'), criterion: keySchema, cannotJudge: z.boolean(), ...gradedSchema }),
  z.strictObject({ kind: z.literal('overall'), cannotJudge: z.boolean(), ...gradedSchema }),
  z.strictObject({ kind: z.literal('check'), check: keySchema, answer: keySchema.nullable(), detail: line(120) }),
  z.strictObject({ kind: z.literal('note'), criterion: keySchema.nullable(), text: paragraph(1000) }),
  z.strictObject({ kind: z.literal('manner'), manner: z.enum(['relaxed', 'tense', 'fought']).nullable() }),
  z.strictObject({ kind: z.literal('fair'), fair: z.boolean(), why: line(200) }),
  z.strictObject({
    kind: z.literal('choice'),
    puppy: idSchema.nullable(),
    reason: paragraph(500),
    chance: z.int().min(0).max(100).nullable(),
  }),
]);
export type EntryBody = z.infer<typeof entryBodySchema>;

/** One change as the device made it. `subject` is a showing, or a slot for a choice; a higher `counter` wins, then the higher device. */
const entrySchema = z.strictObject({
  id: idSchema,
  subject: idSchema,
  counter: z.int().min(1).max(1_000_000_000),
  madeAt: z.int().min(0),
  body: entryBodySchema,
});
export type Entry = z.infer<typeof entrySchema>;

/** An entry on its way. `again`: the server acknowledged it before and no longer has it, so it must have been restored; the record counts those. */
export const sentEntrySchema = entrySchema.extend({ again: z.literal(true).optional() });
export type SentEntry = z.infer<typeof sentEntrySchema>;

/** applied: on the server and in force; superseded: kept, a newer edit stands; late: kept after lock or close, not in the blind result; refused: kept nowhere, with a code. */
export const entryOutcomeSchema = z.strictObject({
  id: idSchema,
  status: z.enum(['applied', 'superseded', 'late', 'refused']),
  code: z.string().nullable(),
});
export type EntryOutcome = z.infer<typeof entryOutcomeSchema>;

/** One answer in force, as its own seat reads it back. */
export const answerSchema = z.strictObject({
  subject: idSchema,
  field: z.string(),
  counter: z.int(),
  body: entryBodySchema,
});
export type Answer = z.infer<typeof answerSchema>;
