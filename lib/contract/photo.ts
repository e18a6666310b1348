import { z } from 'zod';
import { landmarkKeys } from '../photo/placing';
import { photoLimits } from '../photo/photoFile';
import { ratioKeys } from '../photo/ratio';
import { shotKeys } from '../photo/shot';
import { idSchema, line } from './fields';

export const shotSchema = z.enum(shotKeys);
export const shotListSchema = z
  .array(shotSchema)
  .min(1)
  .max(shotKeys.length)
  .refine((list) => new Set(list).size === list.length, 'named twice');

/** What travels beside the bytes of a picture, in the address it is sent to. */
export const photoTagSchema = z.strictObject({
  evaluation: idSchema,
  puppy: idSchema,
  view: shotSchema,
  taken: z.coerce.number().int().min(0),
  fair: z.enum(['yes', 'no']),
  /** SHA-256 of the bytes as the device has them, in hex: what arrives otherwise is not kept. */
  hash: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
});
export type PhotoTag = z.infer<typeof photoTagSchema>;

/**
 * That a picture is on the server: the id it was sent under, the hash of the bytes that were kept, and the id it has here,
 * which is another where the same bytes were here before.
 */
export type PhotoKept = { readonly sent: string; readonly hash: string; readonly id: string };

/** A picture or clip as members of its evaluation see it; the files are asked for by its id alone. */
export const photoFaceSchema = z.strictObject({
  id: idSchema,
  puppyId: idSchema,
  view: shotSchema,
  kind: z.enum(['picture', 'clip']),
  takenAt: z.int(),
  width: z.int(),
  height: z.int(),
  placeholder: z.string(),
  /** Whether the picture is a fair one of the puppy: about the picture, not about structure. */
  fair: z.boolean(),
  /** The one of its view that is looked at first. */
  keeper: z.boolean(),
  /** Whether this viewer brought it. */
  own: z.boolean(),
});
export type PhotoFace = z.infer<typeof photoFaceSchema>;

export const photoListSchema = z.strictObject({
  shots: shotListSchema,
  photos: z.array(photoFaceSchema),
  /** Whether this viewer may add pictures, choose keepers, and change the list. */
  may: z.strictObject({ add: z.boolean(), keep: z.boolean(), list: z.boolean() }),
});
export type PhotoList = z.infer<typeof photoListSchema>;

const share = z.number().min(0).max(1);
const placeSchema = z.strictObject({ x: share, y: share });

/** A mark on a picture, in shares of its width and height: from where to where, a ring round its first place. */
export const pointerInputSchema = z.strictObject({
  kind: z.enum(['arrow', 'ring', 'line']),
  from: placeSchema,
  to: placeSchema,
  note: line(photoLimits.note),
});
export type PointerInput = z.infer<typeof pointerInputSchema>;

/**
 * `blind` is false for what was put on a picture once a first reveal had shown its seat the others' scores. `held` is true
 * of one's own while no other seat is told of it: until what was open when it was made is revealed.
 */
const placedSchema = z.strictObject({
  id: idSchema,
  photoId: idSchema,
  seat: idSchema,
  at: z.int(),
  blind: z.boolean(),
  held: z.boolean(),
});

const pointerSchema = pointerInputSchema.extend(placedSchema.shape);
export type Pointer = z.infer<typeof pointerSchema>;

const placingSchema = z
  .partialRecord(z.enum(landmarkKeys), placeSchema)
  .refine((placing) => Object.keys(placing).length > 1, 'too few');

/** Landmarks of one ratio as one seat put them, with what it said of the picture. */
export const measurementInputSchema = z.strictObject({
  ratio: z.enum(ratioKeys),
  placing: placingSchema,
  /** True length of the distance that sets the scale, in millimetres. */
  sizeMillimetres: z.number().min(20).max(1200),
  setting: z.strictObject({
    landmarkError: z.number().min(1).max(30),
    turn: z.number().min(0).max(45),
    distance: z.number().min(200).max(10_000),
    tooHigh: z.number().min(0).max(2000),
  }),
});
export type MeasurementInput = z.infer<typeof measurementInputSchema>;

const measurementSchema = measurementInputSchema.extend(placedSchema.shape);
export type Measurement = z.infer<typeof measurementSchema>;

/** What stands on the pictures of an evaluation: one's own, and after reveal everybody's. */
export const photoMarksSchema = z.strictObject({
  pointers: z.array(pointerSchema),
  measurements: z.array(measurementSchema),
});
export type PhotoMarks = z.infer<typeof photoMarksSchema>;

/** A published figure as the owner confirmed or replaced it for her litter. */
export const breedFigureSchema = z.strictObject({
  ratio: z.enum(ratioKeys),
  low: z.number().min(0.1).max(5),
  high: z.number().min(0.1).max(5),
  source: line(160),
});
export type BreedFigureInput = z.infer<typeof breedFigureSchema>;
