import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { seatInputSchema } from '#lib/contract/setup';
import { savePanelSeat } from '../../commands/savePanelSeat';
import { madeId } from '../callId';
import { preparing } from '../access';
import { memberProcedure } from '../trpc';

/** A null seatId adds a seat. */
export const saveSeat = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema.nullable(), seat: seatInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input: { id, seatId, seat } }) => {
    const { viewer } = preparing(ctx, id);
    return { id: savePanelSeat(ctx.runtime, { evaluationId: id, seatId, newId: madeId(ctx), input: seat, organiserId: viewer.owner ? null : viewer.seatId }) };
  });
