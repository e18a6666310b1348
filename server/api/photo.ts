import { z } from 'zod';
import { listBreedFigures } from '#db/queries/photoMarks';
import { getShotList, listPhotos } from '#db/queries/photos';
import { photoFace } from '#lib/blind/photoViews';
import { idSchema } from '#lib/contract/fields';
import {
  breedFigureSchema,
  measurementInputSchema,
  photoListSchema,
  photoMarksSchema,
  pointerInputSchema,
  shotListSchema,
  shotSchema,
} from '#lib/contract/photo';
import { mayAddPhoto, mayChangeShotList, mayChooseKeeper } from '#lib/evaluation/seats';
import { changePhoto, markPhoto, saveShots } from '../commands/photos';
import { confirmBreedFigure } from '../commands/litters';
import { readMarks } from '../reveal/readMarks';
import { accessTo } from './access';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const photoRouter = router({
  /** The owner confirms a published figure for her litter, or puts her own in its place. */
  confirmFigure: ownerProcedure
    .input(z.strictObject({ id: idSchema, figure: breedFigureSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, figure } }) => {
      confirmBreedFigure(ctx.runtime, id, figure);
      return done;
    }),

  /** The published figures the owner has confirmed for this litter's breed. */
  figures: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(breedFigureSchema))
    .query(({ ctx, input }) => listBreedFigures(ctx.runtime.db, accessTo(ctx, input.id).facts.litter.id)),

  /** Makes a picture the one of its view that is looked at first: before any reveal only. */
  keep: memberProcedure
    .input(z.strictObject({ id: idSchema, photoId: idSchema }))
    .output(doneSchema)
    .mutation(async ({ ctx, input: { id, photoId } }) => {
      await changePhoto(ctx, { evaluationId: id, photoId, change: { kind: 'keep' } });
      return done;
    }),

  /** The pictures of an evaluation and the views wanted of each puppy. Pictures are no scores: every member sees them in every phase. */
  list: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(photoListSchema)
    .query(({ ctx, input }) => {
      const { facts, ...asker } = accessTo(ctx, input.id);
      const { db } = ctx.runtime;
      return {
        shots: [...getShotList(db, facts.id)],
        photos: listPhotos(db, facts.id).map(({ view, fair, keeper, ...row }) =>
          photoFace(
            { ...row, view: shotSchema.parse(view), fair: fair === 1, keeper: keeper === 1 },
            asker.viewer.seatId,
          ),
        ),
        may: {
          add: mayAddPhoto(facts, asker),
          keep: mayChooseKeeper(facts, asker),
          list: mayChangeShotList(facts, asker),
        },
      };
    }),

  /** Marks and measurements on the pictures: one's own, and everybody's of revealed rounds (BL1). */
  marks: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(photoMarksSchema)
    .query(({ ctx, input }) => readMarks(ctx.runtime.db, { ...accessTo(ctx, input.id), deviceId: ctx.device.id })),

  /** Keeps the landmarks of one ratio as this seat put them. `measurementId` is made by the device; the same id again changes nothing. */
  measure: memberProcedure
    .input(
      z.strictObject({ id: idSchema, measurementId: idSchema, photoId: idSchema, measurement: measurementInputSchema }),
    )
    .output(doneSchema)
    .mutation(({ ctx, input: { id, measurementId, photoId, measurement } }) => {
      markPhoto(ctx, { evaluationId: id, mark: { kind: 'measure', id: measurementId, photoId, measurement } });
      return done;
    }),

  /** Says whose picture it is, and from where. */
  place: memberProcedure
    .input(z.strictObject({ id: idSchema, photoId: idSchema, puppyId: idSchema, view: shotSchema }))
    .output(doneSchema)
    .mutation(async ({ ctx, input: { id, photoId, puppyId, view } }) => {
      await changePhoto(ctx, { evaluationId: id, photoId, change: { kind: 'place', puppyId, view } });
      return done;
    }),

  /** Points at a place on a picture. `pointerId` is made by the device; the same id again changes nothing. */
  point: memberProcedure
    .input(z.strictObject({ id: idSchema, pointerId: idSchema, photoId: idSchema, pointer: pointerInputSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, pointerId, photoId, pointer } }) => {
      markPhoto(ctx, { evaluationId: id, mark: { kind: 'point', id: pointerId, photoId, pointer } });
      return done;
    }),

  /** Removes a picture and its files for good: the owner any, a seat its own. */
  remove: memberProcedure
    .input(z.strictObject({ id: idSchema, photoId: idSchema }))
    .output(doneSchema)
    .mutation(async ({ ctx, input: { id, photoId } }) => {
      await changePhoto(ctx, { evaluationId: id, photoId, change: { kind: 'remove' } });
      return done;
    }),

  /** The views the owner wants of each puppy. */
  saveList: ownerProcedure
    .input(z.strictObject({ id: idSchema, shots: shotListSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, shots } }) => {
      saveShots(ctx.runtime, id, shots);
      return done;
    }),

  /** Whether the picture is a fair one of the puppy: stance, light and angle, never structure. */
  setFair: memberProcedure
    .input(z.strictObject({ id: idSchema, photoId: idSchema, fair: z.boolean() }))
    .output(doneSchema)
    .mutation(async ({ ctx, input: { id, photoId, fair } }) => {
      await changePhoto(ctx, { evaluationId: id, photoId, change: { kind: 'fair', fair } });
      return done;
    }),

  /** Takes one's own mark back. */
  unpoint: memberProcedure
    .input(z.strictObject({ id: idSchema, pointerId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, pointerId } }) => {
      markPhoto(ctx, { evaluationId: id, mark: { kind: 'unpoint', id: pointerId } });
      return done;
    }),
});
