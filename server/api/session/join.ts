import { z } from 'zod';
import { joinByLink } from '../../commands/joinByLink';
import { refuseSecondPlace } from '../../commands/refuseSecondPlace';
import { hashToken } from '../../random';
import { sessionSecret } from '../callId';
import { publicProcedure } from '../trpc';
import { startSession } from './startSession';

/**
 * Exchanges a one-time link for a session. A browser that has one already is refused, so that nobody ends up with two
 * seats. A link is too long to be guessed, so that no limit keeps a right one waiting.
 */
export const join = publicProcedure
  .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
  .output(z.strictObject({ joined: z.literal(true) }))
  .mutation(({ ctx, input }) => {
    const secret = sessionSecret(ctx, input.token);
    if (ctx.device && ctx.secretHash !== hashToken(secret)) refuseSecondPlace(ctx.runtime, ctx.device, hashToken(input.token));
    startSession(ctx, joinByLink(ctx.runtime, { token: input.token, secret }));
    return { joined: true as const };
  });
