import { z } from 'zod';
import { findHomeLink } from '#db/queries/findHomeLink';
import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { homeNoteView } from '#lib/blind/homeNoteView';
import { homeNoteSchema } from '#lib/contract/homeNote';
import { DomainError } from '#lib/errors';
import { standingOf } from '../../commands/standingOf';
import { hashToken } from '../../random';
import { publicProcedure } from '../trpc';

/** One puppy's note, for whoever has its home's link. A mutation, so that the link's secret is in no address and no log. */
export const read = publicProcedure
  .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
  .output(homeNoteSchema)
  .mutation(({ ctx: { runtime }, input }) => {
    const home = findHomeLink(runtime.db, hashToken(input.token));
    if (!home) throw new DomainError('link-dead');
    const facts = getEvaluationFacts(runtime.db, home.evaluationId);
    return homeNoteView({ facts, ...standingOf(runtime, facts) }, home.puppyId);
  });
