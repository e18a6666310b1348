import { z } from 'zod';
import { daySchema, idSchema } from './fields';
import { keySchema } from './entry';

const decisionSchema = z.strictObject({
  slotId: idSchema,
  /** Null where the place was left empty on purpose. */
  puppyId: idSchema.nullable(),
  by: z.string(),
  reason: z.string(),
  /** True when the decider declared it a preference between puppies that the scores do not tell apart. */
  preference: z.boolean(),
  /** Whether it was the panel's most probable puppy for the slot; null when the panel named none. */
  followedPanel: z.boolean().nullable(),
  at: z.int(),
});
export type Decision = z.infer<typeof decisionSchema>;

/** What the owner chooses on a veterinary answer. Only *cleared* lets a hold fall; a day that has passed lifts nothing by itself. */
export const holdChoiceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('cleared') }),
  z.strictObject({ kind: z.literal('again'), on: daySchema }),
  z.strictObject({ kind: z.literal('stays') }),
]);
export type HoldChoice = z.infer<typeof holdChoiceSchema>;

export const veterinaryAnswerSchema = z.strictObject({
  /** What the veterinary surgeon said, as it was written down. */
  answer: z.string(),
  by: z.string(),
  at: z.int(),
  /** Null in an answer from before there was a choice: the hold fell then, whatever was said. */
  choice: holdChoiceSchema.nullable(),
});
export type VeterinaryAnswer = z.infer<typeof veterinaryAnswerSchema>;

/** A check that keeps a puppy out of show or breeding slots while it stands. */
const holdSchema = z.strictObject({
  puppyId: idSchema,
  check: keySchema,
  answers: z.array(z.string()),
  /** Veterinary answers, oldest first: the last counts, those before it stay to be read. */
  said: z.array(veterinaryAnswerSchema),
  stands: z.boolean(),
});
export type Hold = z.infer<typeof holdSchema>;

/** Checks of a puppy that no seat made. */
const unexaminedSchema = z.strictObject({ puppyId: idSchema, checks: z.array(keySchema) });
export type Unexamined = z.infer<typeof unexaminedSchema>;

export const decisionViewSchema = z.strictObject({
  holds: z.array(holdSchema),
  /** Puppies of whom no check is open are left out. A pick for a show or breeding keep names what it goes on without. */
  unexamined: z.array(unexaminedSchema),
  decisions: z.array(decisionSchema),
  /** The slot whose turn it is; null when all are decided. */
  nextSlotId: idSchema.nullable(),
  mayDecide: z.boolean(),
  maySeal: z.boolean(),
});
export type DecisionView = z.infer<typeof decisionViewSchema>;

export const discussionNoteSchema = z.strictObject({
  id: idSchema,
  /** Null in an anonymous panel, save one's own. */
  seat: idSchema.nullable(),
  slotId: idSchema.nullable(),
  puppyId: idSchema.nullable(),
  otherPuppyId: idSchema.nullable(),
  criterion: keySchema.nullable(),
  text: z.string(),
  at: z.int(),
  /** True of one's own while no other seat is told of it: until what was open when it was written is revealed. */
  held: z.boolean(),
});
export type DiscussionNote = z.infer<typeof discussionNoteSchema>;

/** Seats that ask to speak, the longest waiting first; `held` where one's own is among them and told to nobody else yet. */
export const raisedHandsSchema = z.strictObject({ waiting: z.array(idSchema), held: z.boolean() });
export type RaisedHands = z.infer<typeof raisedHandsSchema>;

/** The record of what happened, in order, each entry chained to the one before. */
export const recordEntrySchema = z.strictObject({
  seq: z.int(),
  at: z.int(),
  actor: z.string(),
  kind: z.string(),
  detail: z.string(),
  hash: z.string(),
});
export type RecordEntry = z.infer<typeof recordEntrySchema>;
