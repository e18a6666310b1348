import { z } from 'zod';
import { keySchema } from '#lib/contract/entry';
import { idSchema } from '#lib/contract/id';
import { paragraph } from '#lib/contract/text';
import { DomainError } from '#lib/errors';
import { mayDiscuss } from '#lib/evaluation/mayDiscuss';
import { addDiscussionNote } from '../../commands/addDiscussionNote';
import { accessTo, ownSeat } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

/** `noteId` is made by the device; the same id again changes nothing. */
export const addNote = memberProcedure
  .input(
    z.strictObject({
      id: idSchema,
      noteId: idSchema,
      slotId: idSchema.nullable(),
      puppyId: idSchema.nullable(),
      otherPuppyId: idSchema.nullable(),
      criterion: keySchema.nullable(),
      text: paragraph(1000),
    }),
  )
  .output(doneSchema)
  .mutation(({ ctx, input: { id, noteId, ...note } }) => {
    const seat = ownSeat(accessTo(ctx, id));
    if (!mayDiscuss(seat)) throw new DomainError('not-allowed');
    addDiscussionNote(ctx.runtime, { ...note, id: noteId, evaluationId: id, seatId: seat.id, deviceId: ctx.device.id });
    return done;
  });
