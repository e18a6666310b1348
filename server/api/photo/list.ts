import { z } from 'zod';
import { getShotList } from '#db/queries/getShotList';
import { listPhotos } from '#db/queries/listPhotos';
import { photoFace } from '#lib/blind/photoFace';
import { idSchema } from '#lib/contract/id';
import { photoListSchema, shotSchema } from '#lib/contract/photo';
import { mayAddPhoto, mayChangeShotList, mayChooseKeeper } from '#lib/evaluation/mayPhotograph';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** The pictures of an evaluation and the views wanted of each puppy. Pictures are no scores: every member sees them in every phase. */
export const list = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(photoListSchema)
  .query(({ ctx, input }) => {
    const { facts, viewer } = accessTo(ctx, input.id);
    const { db } = ctx.runtime;
    const asker = { viewer, seat: facts.seats.find((one) => one.id === viewer.seatId) ?? null };
    return {
      shots: [...getShotList(db, facts.id)],
      photos: listPhotos(db, facts.id).map(({ view, fair, keeper, ...row }) =>
        photoFace({ ...row, view: shotSchema.parse(view), fair: fair === 1, keeper: keeper === 1 }, viewer.seatId),
      ),
      may: { add: mayAddPhoto(facts, asker), keep: mayChooseKeeper(facts, asker), list: mayChangeShotList(facts, asker) },
    };
  });
