import { z } from 'zod';
import { appendRecord } from '#db/queries/appendRecord';
import { DomainError } from '#lib/errors';
import { joinByLink } from '../../commands/joinByLink';
import { publicProcedure } from '../trpc';

/**
 * Exchanges a one-time link for a session. A browser that has one already is refused, so that nobody ends up with two
 * seats: an owner trying a seat's link is written into the record.
 */
export const join = publicProcedure
  .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
  .output(z.strictObject({ joined: z.literal(true) }))
  .mutation(({ ctx, input }) => {
    const { runtime, device } = ctx;
    if (device) {
      if (device.owner) appendRecord(runtime.db, { evaluationId: null, at: runtime.clock.now(), actor: 'owner', kind: 'link-refused', detail: 'a link was opened in the owner’s browser' });
      throw new DomainError('in-use');
    }
    ctx.setSession(joinByLink(runtime, input.token));
    return { joined: true as const };
  });
