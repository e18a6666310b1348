import { z } from 'zod';
import { readCode } from '#lib/access/spokenCode';
import { line } from '#lib/contract/text';
import { DomainError } from '#lib/errors';
import { joinByCode as command } from '../../commands/joinByCode';
import { refuseSecondPlace } from '../../commands/refuseSecondPlace';
import { hashSpoken, spokenLength } from '../../commands/spokenSecret';
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
    if (device) refuseSecondPlace(runtime, device, hashSpoken(code));
    const { secret, waiting } = await limits.guess({ door: 'code', address, now: runtime.clock.now() }, () => command(runtime, code));
    startSession(ctx, secret);
    return { waiting };
  });
