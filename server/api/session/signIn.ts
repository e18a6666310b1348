import { z } from 'zod';
import { line } from '#lib/contract/text';
import { DomainError } from '#lib/errors';
import { signIn as command } from '../../commands/ownerSecret';
import { done, doneSchema } from '../done';
import { hashToken } from '../../random';
import { sessionSecret } from '../callId';
import { publicProcedure } from '../trpc';
import { startSession } from './startSession';

/** The owner on another device: her passphrase, or one of her recovery codes. */
export const signIn = publicProcedure
  .input(z.strictObject({ passphrase: line(200, 1) }))
  .output(doneSchema)
  .mutation(async ({ ctx, input }) => {
    const secret = sessionSecret(ctx, input.passphrase);
    if (ctx.device && ctx.secretHash !== hashToken(secret)) throw new DomainError('in-use');
    startSession(ctx, await command(ctx.runtime, ctx, { typed: input.passphrase, secret }));
    return done;
  });
