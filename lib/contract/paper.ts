import { z } from 'zod';
import { puppyFaceSchema } from './evaluationView';
import { idSchema } from './fields';
import { seatKindSchema } from './setup';

/** One sheet to print, and whether it was typed: never what it says. */
const paperSheetSchema = z.strictObject({
  showingId: idSchema,
  /** A letter and two digits, printed on the sheet and asked for when it is typed. */
  code: z.string(),
  puppy: puppyFaceSchema,
  /** The chip's last digits; empty where none are given or the seat sees codes. */
  chipDigits: z.string(),
  /** How many answers the sheet asks for. */
  asked: z.int(),
  /** When the owner typed it last, and how many answers it has; null while not typed, and to everybody but the owner. */
  typed: z.strictObject({ at: z.int(), answers: z.int() }).nullable(),
});
export type PaperSheet = z.infer<typeof paperSheetSchema>;

/** The seats whose sheets the viewer may print: the own, and to the owner those on paper. */
export const paperViewSchema = z.strictObject({
  seats: z.array(
    z.strictObject({
      id: idSchema,
      label: z.string(),
      /** Place at the panel, from 0. */
      position: z.int(),
      kind: seatKindSchema,
      onPaper: z.boolean(),
      locked: z.boolean(),
      /** In the order in which this seat sees the puppies; empty while no round is open or closed. */
      sheets: z.array(paperSheetSchema),
    }),
  ),
});
export type PaperView = z.infer<typeof paperViewSchema>;
export type PaperSeat = PaperView['seats'][number];
