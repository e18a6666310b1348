import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { breedFigureSchema } from '#lib/contract/photo';
import { confirmBreedFigure } from '../../commands/confirmBreedFigure';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { ownerProcedure } from '../trpc';

/** The owner confirms a published figure for her litter, or puts her own in its place. */
export const confirmFigure = ownerProcedure
  .input(z.strictObject({ id: idSchema, figure: breedFigureSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, figure } }) => {
    accessTo(ctx, id);
    confirmBreedFigure(ctx.runtime, id, figure);
    return done;
  });
