import { z } from 'zod';
import { listBreedFigures } from '#db/queries/listBreedFigures';
import { idSchema } from '#lib/contract/id';
import { breedFigureSchema } from '#lib/contract/photo';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** The published figures the owner has confirmed for this litter's breed. */
export const figures = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(breedFigureSchema))
  .query(({ ctx, input }) => listBreedFigures(ctx.runtime.db, accessTo(ctx, input.id).facts.litter.id));
