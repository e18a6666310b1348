import { z } from 'zod';
import { listPaperCards } from '#db/queries/paperCards';
import { getLitter } from '#db/queries/litters';
import { paperView } from '#lib/blind/paperView';
import { entryBodySchema } from '#lib/contract/entry';
import { idSchema, line } from '#lib/contract/fields';
import { paperViewSchema } from '#lib/contract/paper';
import { lockPaper, typeCard } from '../commands/paper';
import { accessTo } from './access';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const paperRouter = router({
  /** Sheets to print, and to the owner which of those on paper were typed. Never an answer (BL1). */
  list: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(paperViewSchema)
    .query(({ ctx, input }) => {
      const { facts, viewer } = accessTo(ctx, input.id);
      const { db } = ctx.runtime;
      const chips = new Map(getLitter(db, facts.litter.id).puppies.map((puppy) => [puppy.id, puppy.chipDigits]));
      return paperView(facts, viewer, { chips, typed: facts.round ? listPaperCards(db, facts.round.id) : [] });
    }),

  /** Locks a seat on paper whose every sheet was typed; `signedAt` as it stands on the paper. */
  lock: ownerProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema, signedAt: line(20) }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, ...lock } }) => {
      lockPaper(ctx, { evaluationId: id, ...lock });
      return done;
    }),

  /** One whole card of a seat on paper; sent again under another call it replaces the one before. What it says is answered to nobody. */
  type: ownerProcedure
    .input(
      z.strictObject({
        id: idSchema,
        seatId: idSchema,
        showingId: idSchema,
        bodies: z.array(entryBodySchema).min(1).max(120),
      }),
    )
    .output(doneSchema)
    .mutation(({ ctx, input: { id, ...card } }) => {
      typeCard(ctx, { evaluationId: id, cardId: madeId(ctx), ...card });
      return done;
    }),
});
