import { z } from 'zod';
import { getLitter, listLitters, saveLitter, saveWeight } from '#db/queries/litters';
import { idSchema } from '#lib/contract/fields';
import {
  litterInputSchema,
  litterLineSchema,
  litterViewSchema,
  puppyInputSchema,
  weightSchema,
} from '#lib/contract/litter';
import { DomainError } from '#lib/errors';
import { saveLitterPuppy } from '../commands/litters';
import { madeId } from './callId';
import { ownerProcedure, router } from './trpc';

export const litterRouter = router({
  get: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(litterViewSchema)
    .query(({ ctx, input }) => getLitter(ctx.runtime.db, input.id)),

  list: ownerProcedure
    .input(z.void())
    .output(z.array(litterLineSchema))
    .query(({ ctx }) => listLitters(ctx.runtime.db)),

  /** A null id makes a new litter. */
  save: ownerProcedure
    .input(z.strictObject({ id: idSchema.nullable(), litter: litterInputSchema }))
    .output(z.strictObject({ id: idSchema }))
    .mutation(({ ctx, input }) => {
      if (input.id !== null) getLitter(ctx.runtime.db, input.id);
      const id = input.id ?? madeId(ctx);
      saveLitter(ctx.runtime.db, { ...input.litter, id, createdAt: ctx.runtime.clock.now() });
      return { id };
    }),

  /** A null puppyId adds a puppy. */
  savePuppy: ownerProcedure
    .input(z.strictObject({ litterId: idSchema, puppyId: idSchema.nullable(), puppy: puppyInputSchema }))
    .output(z.strictObject({ id: idSchema }))
    .mutation(({ ctx, input }) => ({ id: saveLitterPuppy(ctx.runtime, { ...input, newId: madeId(ctx) }) })),

  saveWeight: ownerProcedure
    .input(z.strictObject({ litterId: idSchema, puppyId: idSchema, weight: weightSchema }))
    .output(z.strictObject({ saved: z.literal(true) }))
    .mutation(({ ctx: { runtime }, input }) => {
      const { puppies } = getLitter(runtime.db, input.litterId);
      if (!puppies.some((one) => one.id === input.puppyId)) throw new DomainError('not-found');
      saveWeight(runtime.db, { puppyId: input.puppyId, ...input.weight });
      return { saved: true as const };
    }),
});
