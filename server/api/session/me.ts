import { z } from 'zod';
import { findDeviceRequest } from '#db/queries/findDeviceRequest';
import { getSeat } from '#db/queries/getSeat';
import { protocolVersion } from '#lib/contract/protocolVersion';
import { sessionViewSchema, type SessionView } from '#lib/contract/sessionView';
import type { Context } from '../context';
import { publicProcedure } from '../trpc';

/** Who this browser is; answers for strangers too, and for a further device that waits to be let in. */
export const me = publicProcedure.input(z.void()).output(sessionViewSchema).query(({ ctx }) => {
  const seatId = ctx.device?.seatId ?? null;
  const seat = seatId === null ? null : getSeat(ctx.runtime.db, seatId);
  return {
    owner: ctx.device?.owner ?? false,
    seat: seat && { id: seat.id, label: seat.label, evaluationId: seat.evaluationId },
    asking: ctx.device ? null : asking(ctx),
    demo: ctx.runtime.demo !== null,
    protocolVersion,
  };
});

function asking({ runtime, secretHash }: Context): SessionView['asking'] {
  const request = secretHash === null ? undefined : findDeviceRequest(runtime.db, secretHash);
  // One that was let in and whose session has ended since is a stranger again.
  if (!request || request.approved === 1) return null;
  const over = request.expiresAt <= runtime.clock.now();
  return { digits: request.digits, state: request.approved === 0 ? 'refused' : over ? 'over' : 'waiting' };
}
