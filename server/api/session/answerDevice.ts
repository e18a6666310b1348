import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { answerFurtherDevice } from '../../commands/answerFurtherDevice';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** BL9: lets a further device of the asker's own seat in, or refuses it. */
export const answerDevice = memberProcedure
  .input(z.strictObject({ requestId: idSchema, letIn: z.boolean() }))
  .output(doneSchema)
  .mutation(({ ctx: { runtime, device }, input }) => {
    answerFurtherDevice(runtime, { ...input, device });
    return done;
  });
