import { z } from 'zod';
import { demoRoleSchema, demoViewSchema } from '#lib/contract/demoView';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import type { DemoCopy, Runtime } from '../runtime';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, publicProcedure, router } from './trpc';

/** The asker's copy. Throws not-found outside the demo. */
function copyOf({ demo }: Runtime): DemoCopy {
  if (!demo?.copy) throw new DomainError('not-found');
  return demo.copy;
}

export const demoRouter = router({
  /** Takes a seat in a fresh copy; a copy that this visitor had goes. Outside the demo there is nothing to enter. */
  enter: publicProcedure
    .input(z.strictObject({ role: demoRoleSchema }))
    .output(doneSchema)
    .mutation(async ({ ctx, input }) => {
      if (!ctx.runtime.demo) throw new DomainError('not-found');
      ctx.limits.spend('demo', ctx.address, ctx.runtime.clock.now());
      ctx.setSession(await ctx.runtime.demo.enter(input.role, { id: madeId(ctx), address: ctx.address }));
      return done;
    }),

  /** The visitor's copy: which two evaluations it has, and how long it stays. */
  get: memberProcedure
    .input(z.void())
    .output(demoViewSchema)
    .query(({ ctx }) => copyOf(ctx.runtime).view()),

  /** Brings the visitor's open evaluation to its reveal. */
  playToReveal: memberProcedure
    .input(z.void())
    .output(doneSchema)
    .mutation(async ({ ctx }) => {
      await copyOf(ctx.runtime).playToReveal();
      return done;
    }),

  /** Moves the visitor to the own seat in the other evaluation of the copy: one session is one seat, also here. */
  sitIn: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      ctx.setSession(copyOf(ctx.runtime).sessionIn(input.id));
      return done;
    }),
});
