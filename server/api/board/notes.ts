import { z } from 'zod';
import { listDiscussionNotes } from '#db/queries/listDiscussionNotes';
import { discussionNoteSchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

export const notes = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(discussionNoteSchema))
  .query(({ ctx, input }) => listDiscussionNotes(ctx.runtime.db, accessTo(ctx, input.id).facts.id));
