import { z } from 'zod';
import { readCode, spokenLength, spokenNameLength } from '#lib/access/spokenCode';
import { line } from '#lib/contract/text';
import { DomainError } from '#lib/errors';
import { joinByCode as command } from '../../commands/joinByCode';
import { refuseSecondPlace } from '../../commands/refuseSecondPlace';
import { hashSpoken } from '../../commands/spokenSecret';
import { hashToken } from '../../random';
import { sessionSecret } from '../callId';
import { publicProcedure } from '../trpc';
import { startSession } from './startSession';

/** Exchanges a spoken code, typed as it was heard. `waiting`: a device of the seat has to let this one in first. */
export const joinByCode = publicProcedure
  .input(z.strictObject({ code: line(40, 1) }))
  .output(z.strictObject({ waiting: z.boolean() }))
  .mutation(async ({ ctx, input }) => {
    const code = readCode(input.code, spokenLength);
    // What cannot be a code is no guess.
    if (code === null) throw new DomainError('bad-input', { field: 'code' });
    const { runtime, device, limits, address } = ctx;
    const wanted = sessionSecret(ctx, code);
    if (device && ctx.secretHash !== hashToken(wanted)) refuseSecondPlace(runtime, device, hashSpoken(code));
    const { secret, waiting } = await limits.guess({ door: 'code', name: code.slice(0, spokenNameLength), address, now: runtime.clock.now() }, () => command(runtime, { code, secret: wanted }));
    startSession(ctx, secret);
    return { waiting };
  });
