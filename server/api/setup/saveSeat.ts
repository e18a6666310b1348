import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { seatInputSchema } from '#lib/contract/setup';
import { savePanelSeat } from '../../commands/savePanelSeat';
import { ownerProcedure } from '../trpc';

/** A null seatId adds a seat. */
export const saveSeat = ownerProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema.nullable(), seat: seatInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input }) => ({ id: savePanelSeat(ctx.runtime, { evaluationId: input.id, seatId: input.seatId, input: input.seat }) }));
