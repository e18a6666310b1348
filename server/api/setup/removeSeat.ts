import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { removePanelSeat } from '../../commands/savePanelSeat';
import { actorOf } from '../../commands/actorOf';
import { preparing } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const removeSeat = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(doneSchema)
  .mutation(({ ctx, input: { id, seatId } }) => {
    const { viewer } = preparing(ctx, id);
    removePanelSeat(ctx.runtime, { evaluationId: id, seatId, actor: actorOf(viewer) });
    return done;
  });
