import { z } from 'zod';
import { listDiscussionNotes } from '#db/queries/decisions';
import { listDevices } from '#db/queries/devices';
import { listOwnEntries } from '#db/queries/entries';
import { listRecord } from '#db/queries/record';
import { idSchema } from '#lib/contract/fields';
import { ownDataSchema } from '#lib/contract/ownData';
import { markReader, readsOnly } from '#lib/evaluation/seats';
import { removePerson } from '../commands/seats';
import { ownSeat } from '../write/writeEvaluation';
import { accessTo } from './access';
import { done, doneSchema, memberProcedure, router } from './trpc';

export const personRouter = router({
  /** What is kept about the asker's own seat, and no parameter to ask for another's (BL1). A seat issued again reads as it does elsewhere (BL9). */
  mine: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(ownDataSchema)
    .query(({ ctx, input }) => {
      const { db } = ctx.runtime;
      const access = accessTo(ctx, input.id);
      const seat = ownSeat(access);
      const { facts } = access;
      const { id, label, kind, interest } = seat;
      const deviceId = readsOnly(facts.round?.state ?? 'open', seat, ctx.device.id);
      return {
        evaluation: facts.name,
        seat: { id, label, kind, interest },
        devices: listDevices(db, ctx.device.owner ? null : id).map(({ createdAt, seenAt, cameBy }) => ({
          createdAt,
          seenAt,
          cameBy,
        })),
        entries: listOwnEntries(db, { seatId: id, deviceId }),
        notes: listDiscussionNotes(db, facts.id, markReader(facts, access.viewer, ctx.device.id)).filter(
          (note) => note.seat === id,
        ),
        record: listRecord(db, facts.id, id),
      };
    }),

  /** Removes what names the person of a seat and what it wrote: the seat's own word, or the owner's. Not to be taken back. */
  remove: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, seatId } }) => {
      removePerson(ctx, { evaluationId: id, seatId });
      return done;
    }),
});
