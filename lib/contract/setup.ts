import { z } from 'zod';
import { daySchema, idSchema, line, paragraph } from './fields';
import { keySchema } from './entry';

const purposeKeys = ['keep', 'working', 'companion'] as const;
/** keep: show or breeding keep; working: working home; companion: companion home. Three ends, no ladder. */
export const purposeKeySchema = z.enum(purposeKeys);
export type PurposeKey = z.infer<typeof purposeKeySchema>;

export const seatKindSchema = z.enum(['hands', 'live', 'photographs', 'none']);
export type SeatKind = z.infer<typeof seatKindSchema>;

export const mediumSchema = z.enum(['table', 'photographs']);

export const seatInputSchema = z.strictObject({
  label: line(40, 1),
  kind: seatKindSchema,
  /** May lead the table: says which puppy is up. */
  leads: z.boolean(),
  /** May take a slot of the pick order. */
  picks: z.boolean(),
  /** May prepare the set-up and lead the table; does not score and cannot decide. */
  organises: z.boolean().default(false),
  /** Reads what is revealed, without scoring. */
  reads: z.boolean().default(false),
  /** Has no device: answers on printed sheets, which the owner types in. */
  paper: z.boolean().default(false),
  /** Declared interest, in the seat's own words; empty when none. */
  interest: line(120),
});
export type SeatInput = z.input<typeof seatInputSchema>;

export const weightsSchema = z.record(keySchema, z.number().min(0).max(100));
export const purposeSchema = z.strictObject({ key: purposeKeySchema, weights: weightsSchema });
export type Purpose = z.infer<typeof purposeSchema>;

export const slotInputSchema = z.strictObject({
  taker: line(60, 1),
  seatId: idSchema.nullable(),
  purpose: purposeKeySchema,
  sex: z.enum(['any', 'dog', 'bitch']),
  condition: line(120),
  byWhen: line(60),
  ifFails: line(120),
});
export type SlotInput = z.infer<typeof slotInputSchema>;

export const evaluationInputSchema = z.strictObject({
  name: line(80, 1),
  heldOn: daySchema,
  medium: mediumSchema,
  callLink: z.union([z.literal(''), z.url({ protocol: /^https?$/ }).max(300)]),
  callNumber: line(60),
  tableNote: paragraph(300),
});
export type EvaluationInput = z.infer<typeof evaluationInputSchema>;
