import { z } from 'zod';
import { listAddenda } from '#db/queries/addenda';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { getLitter } from '#db/queries/litters';
import { findHomeLink, listHomeLinks } from '#db/queries/links';
import { homeNoteView } from '#lib/blind/homeNoteView';
import { homeNoteSchema } from '#lib/contract/homeNote';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import { endHome, linkHome } from '../commands/litters';
import { standingOf } from '../commands/decisions';
import { hashToken } from '../random';
import { accessTo } from './access';
import { done, doneSchema, ownerProcedure, publicProcedure, router } from './trpc';

export const homeRouter = router({
  /** Ends a home's link. */
  end: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, puppyId } }) => {
      endHome(ctx.runtime, { evaluationId: id, puppyId });
      return done;
    }),

  /** The token goes into the fragment of the home's link; it is shown this once. */
  link: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
    .output(z.strictObject({ token: z.string() }))
    .mutation(({ ctx, input: { id, puppyId } }) => ({ token: linkHome(ctx.runtime, { evaluationId: id, puppyId }) })),

  /** The puppies whose home has a link. */
  list: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(idSchema))
    .query(({ ctx, input }) => listHomeLinks(ctx.runtime.db, accessTo(ctx, input.id).facts.id)),

  /** One puppy's note, for whoever has its home's link. A mutation, so that the link's secret is in no address and no log. */
  read: publicProcedure
    .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
    .output(homeNoteSchema)
    .mutation(({ ctx: { runtime }, input }) => {
      const home = findHomeLink(runtime.db, hashToken(input.token));
      if (!home) throw new DomainError('link-dead');
      const facts = getEvaluationFacts(runtime.db, home.evaluationId);
      const litter = getLitter(runtime.db, facts.litter.id);
      return homeNoteView({ facts, litter, addenda: listAddenda(runtime.db, facts.id), ...standingOf(runtime, facts) }, home.puppyId);
    }),
});
