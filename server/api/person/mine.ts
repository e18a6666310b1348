import { z } from 'zod';
import { listDevices } from '#db/queries/listDevices';
import { listDiscussionNotes } from '#db/queries/listDiscussionNotes';
import { listOwnEntries } from '#db/queries/listOwnEntries';
import { listRecord } from '#db/queries/listRecord';
import { idSchema } from '#lib/contract/id';
import { ownDataSchema } from '#lib/contract/ownData';
import { markReader, readsOnly } from '#lib/evaluation/readsOnly';
import { accessTo, ownSeat } from '../access';
import { memberProcedure } from '../trpc';

/** What is kept about the asker's own seat, and no parameter to ask for another's (BL1). A seat issued again reads as it does elsewhere (BL9). */
export const mine = memberProcedure
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
      devices: listDevices(db, ctx.device.owner ? null : id).map(({ createdAt, seenAt, cameBy }) => ({ createdAt, seenAt, cameBy })),
      entries: listOwnEntries(db, { seatId: id, deviceId }),
      notes: listDiscussionNotes(db, facts.id, markReader(facts, access.viewer, ctx.device.id)).filter((note) => note.seat === id),
      record: listRecord(db, facts.id, id),
    };
  });
