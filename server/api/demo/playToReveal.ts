import { z } from 'zod';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';
import { copyOf } from './copyOf';

/** Brings the visitor's open evaluation to its reveal. */
export const playToReveal = memberProcedure.input(z.void()).output(doneSchema).mutation(async ({ ctx }) => {
  await copyOf(ctx.runtime).playToReveal();
  return done;
});
