import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { inviteSeat } from '../../commands/inviteSeat';
import { actorOf } from '../../commands/actorOf';
import { preparing } from '../access';
import { memberProcedure } from '../trpc';

/** The token goes into the fragment of a link, so that it reaches no log; it is shown this once. */
export const invite = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(z.strictObject({ token: z.string() }))
  .mutation(({ ctx, input: { id, seatId } }) => {
    const { viewer } = preparing(ctx, id);
    return { token: inviteSeat(ctx.runtime, { evaluationId: id, seatId, actor: actorOf(viewer) }) };
  });
