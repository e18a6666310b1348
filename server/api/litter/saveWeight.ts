import { z } from 'zod';
import { getLitter } from '#db/queries/getLitter';
import { saveWeight as save } from '#db/queries/saveWeight';
import { idSchema } from '#lib/contract/id';
import { weightSchema } from '#lib/contract/litter';
import { DomainError } from '#lib/errors';
import { ownerProcedure } from '../trpc';

export const saveWeight = ownerProcedure
  .input(z.strictObject({ litterId: idSchema, puppyId: idSchema, weight: weightSchema }))
  .output(z.strictObject({ saved: z.literal(true) }))
  .mutation(({ ctx: { runtime }, input }) => {
    const { puppies } = getLitter(runtime.db, input.litterId);
    if (!puppies.some((one) => one.id === input.puppyId)) throw new DomainError('not-found');
    save(runtime.db, { puppyId: input.puppyId, ...input.weight });
    return { saved: true as const };
  });
