import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { photoMarksSchema } from '#lib/contract/photo';
import { readMarks } from '../../reveal/readMarks';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** Marks and measurements on the pictures: one's own, and everybody's of revealed rounds (BL1). */
export const marks = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(photoMarksSchema)
  .query(({ ctx, input }) => readMarks(ctx.runtime.db, { ...accessTo(ctx, input.id), deviceId: ctx.device.id }));
