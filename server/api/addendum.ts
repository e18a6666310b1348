import { z } from 'zod';
import { listAddenda } from '#db/queries/addenda';
import { addendumInputSchema, addendumSchema } from '#lib/contract/addendum';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import { scoredRounds } from '#lib/evaluation/rounds';
import { writeAddendum } from '../commands/addenda';
import { reading } from './access';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const addendumRouter = router({
  /** What the owner wrote beside the result, from the reveal on. */
  list: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(addendumSchema))
    .query(({ ctx, input }) => {
      const { facts } = reading(ctx, input.id);
      if (scoredRounds(facts).length === 0) throw new DomainError('wrong-phase');
      return listAddenda(ctx.runtime.db, facts.id);
    }),

  /** How a puppy behaves, while it is decided; a veterinary answer, a correction or a changed home once the record is sealed. */
  write: ownerProcedure
    .input(z.strictObject({ id: idSchema, addendum: addendumInputSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, addendum } }) => {
      writeAddendum(ctx.runtime, { addendumId: madeId(ctx), evaluationId: id, input: addendum });
      return done;
    }),
});
