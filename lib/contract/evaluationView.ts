import { z } from 'zod';
import { evaluationPhaseSchema, roundStateSchema, seatStateSchema } from '../evaluation/phase';
import { sheetSchema } from '../sheet/sheet';
import { collarSchema } from './collar';
import { publishedCommitmentSchema, recordHeadSchema } from './commitment';
import { importedSchema } from './evaluationFile';
import { daySchema, idSchema } from './fields';
import { sexSchema } from './litter';
import { cellSchema, planFaceSchema, planSchema } from './plan';
import { evaluationInputSchema, mediumSchema, purposeSchema, seatInputSchema, slotInputSchema } from './setup';

/** A puppy as the table sees it: nothing of parents, favourite, weights or reservations. */
export const puppyFaceSchema = z.strictObject({
  id: idSchema,
  name: z.string(),
  sex: sexSchema,
  collar: collarSchema,
  secondMark: z.string(),
  withdrawn: z.boolean(),
});
export type PuppyFace = z.infer<typeof puppyFaceSchema>;

/** Which seats answer on paper is for whoever prepares: an anonymous panel is not told. */
const seatFaceSchema = seatInputSchema.omit({ paper: true }).extend({
  id: idSchema,
  organises: z.boolean(),
  reads: z.boolean(),
  /** Place at the panel, from 0: decides the shape that stands for the seat in pictures of data. */
  position: z.int(),
  owner: z.boolean(),
  state: seatStateSchema,
});
export type SeatFace = z.infer<typeof seatFaceSchema>;

export const slotViewSchema = slotInputSchema.extend({ id: idSchema });
export type SlotView = z.infer<typeof slotViewSchema>;

/** `repeat` is told from the reveal on; until then no showing says that its puppy has been up before. */
export const showingSchema = z.strictObject({ id: idSchema, puppyId: idSchema, place: z.int(), repeat: z.boolean() });
export type Showing = z.infer<typeof showingSchema>;

const roundViewSchema = z.strictObject({
  id: idSchema,
  occasion: z.enum(['first', 'second', 'practice', 'lesson']),
  medium: mediumSchema,
  state: roundStateSchema,
  /** In the order this viewer works through them: the table's order, or the seat's own in a photograph round. */
  showings: z.array(showingSchema),
  /** The showing on the table now; null in a photograph round or before the first. */
  tableShowingId: idSchema.nullable(),
  /** A second round's cells; null where the whole sheet is asked. */
  cells: z.array(cellSchema).nullable(),
});

const viewerSchema = z.strictObject({
  owner: z.boolean(),
  seatId: idSchema.nullable(),
  leads: z.boolean(),
  /** Prepares the set-up without being the owner. */
  organises: z.boolean(),
  /** Reads what is revealed. */
  reads: z.boolean(),
});
export type ViewerFace = z.infer<typeof viewerSchema>;

/** What a member of an evaluation sees of it, whatever the phase. Purposes (their weights) are null to seats until reveal. */
export const evaluationViewSchema = z.strictObject({
  id: idSchema,
  name: z.string(),
  litterName: z.string(),
  breed: z.string(),
  ageDays: z.int(),
  heldOn: daySchema,
  phase: evaluationPhaseSchema,
  callLink: z.string(),
  callNumber: z.string(),
  tableNote: z.string(),
  viewer: viewerSchema,
  sheet: sheetSchema,
  puppies: z.array(puppyFaceSchema),
  seats: z.array(seatFaceSchema),
  slots: z.array(slotViewSchema),
  purposes: z.array(purposeSchema).nullable(),
  plan: planFaceSchema,
  /** Who has to agree to the pick order, and whether each has, as it is worded now. */
  parties: z.array(z.strictObject({ seat: idSchema, confirmed: z.boolean() })),
  round: roundViewSchema.nullable(),
  /** Whether there is a result: a first round (or lesson) has been revealed. A second round may be open beside it. */
  revealed: z.boolean(),
  /** A batch of second looks is open. */
  lookOpen: z.boolean(),
  /** One a scoring seat, once the round is closed; null before. Of fixed length, whatever was scored (BL4). */
  commitments: z.array(publishedCommitmentSchema).nullable(),
  /** Every device keeps the last one it saw, and asks whether it still stands. */
  head: recordHeadSchema,
  /** Versions this view was read at; a later doorbell asks for a fresh read. */
  versions: z.strictObject({ all: z.int(), own: z.int() }),
  /** It came in a file from another server and is only read here; null for one made here. */
  imported: importedSchema.nullable(),
});
export type EvaluationView = z.infer<typeof evaluationViewSchema>;

/** The set-up page of the owner and of organisers: the same, with what only they may see; nothing of the parents. */
export const setupViewSchema = evaluationInputSchema.extend({
  id: idSchema,
  litterId: idSchema,
  litterName: z.string(),
  whelpedOn: daySchema,
  sheetId: idSchema,
  phase: evaluationPhaseSchema,
  sheet: sheetSchema,
  puppies: z.array(puppyFaceSchema),
  seats: z.array(seatFaceSchema.extend({ linkWaiting: z.boolean(), paper: z.boolean() })),
  purposes: z.array(purposeSchema),
  slots: z.array(slotViewSchema),
  plan: planSchema,
  parties: z.array(z.strictObject({ seat: idSchema, confirmed: z.boolean() })),
  /** Puppy ids in the order they come to the table. */
  order: z.array(idSchema),
});
export type SetupView = z.infer<typeof setupViewSchema>;

export const evaluationLineSchema = z.strictObject({
  id: idSchema,
  name: z.string(),
  litterName: z.string(),
  heldOn: daySchema,
  phase: evaluationPhaseSchema,
  /** When it came in a file from another server; null for one made here. */
  importedAt: z.int().nullable(),
});
