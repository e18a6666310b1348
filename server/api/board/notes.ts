import { z } from 'zod';
import { listDiscussionNotes } from '#db/queries/listDiscussionNotes';
import { discussionNoteSchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { markReader } from '#lib/evaluation/readsOnly';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** What was written after the reveal, and may be told; in an anonymous panel a seat is named on its own notes only. */
export const notes = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(discussionNoteSchema))
  .query(({ ctx, input }) => {
    const { facts, viewer } = reading(ctx, input.id);
    const anonymous = facts.plan.discussion === 'anonymous';
    const notes = listDiscussionNotes(ctx.runtime.db, facts.id, markReader(facts, viewer, ctx.device.id));
    return notes.map((note) => (anonymous && note.seat !== viewer.seatId ? { ...note, seat: null } : note));
  });
