import { z } from 'zod';
import { demoRoleSchema } from '#lib/contract/demoView';
import { DomainError } from '#lib/errors';
import { done, doneSchema } from '../done';
import { madeId } from '../callId';
import { publicProcedure } from '../trpc';

/** Takes a seat in a fresh copy; a copy that this visitor had goes. Outside the demo there is nothing to enter. */
export const enter = publicProcedure
  .input(z.strictObject({ role: demoRoleSchema }))
  .output(doneSchema)
  .mutation(async ({ ctx, input }) => {
    if (!ctx.runtime.demo) throw new DomainError('not-found');
    ctx.limits.spend('demo', ctx.address, ctx.runtime.clock.now());
    ctx.setSession(await ctx.runtime.demo.enter(input.role, { id: madeId(ctx), address: ctx.address }));
    return done;
  });
