import { z } from 'zod';
import { listLitters } from '#db/queries/listLitters';
import { litterLineSchema } from '#lib/contract/litter';
import { ownerProcedure } from '../trpc';

export const list = ownerProcedure.input(z.void()).output(z.array(litterLineSchema)).query(({ ctx }) => listLitters(ctx.runtime.db));
