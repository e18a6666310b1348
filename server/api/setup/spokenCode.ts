import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { spokenCodeSchema } from '#lib/contract/sessionView';
import { actorOf } from '../../commands/actorOf';
import { makeSpokenCode } from '../../commands/makeSpokenCode';
import { preparing } from '../access';
import { memberProcedure } from '../trpc';

/** A code to be read to whoever takes this seat, or to whoever holds it for a further device; shown this once. */
export const spokenCode = memberProcedure
  .input(z.strictObject({ id: idSchema, seatId: idSchema }))
  .output(spokenCodeSchema)
  .mutation(({ ctx, input: { id, seatId } }) => {
    const { viewer } = preparing(ctx, id);
    return makeSpokenCode(ctx.runtime, { evaluationId: id, seatId, actor: actorOf(viewer) });
  });
