import { z } from 'zod';
import { line } from '#lib/contract/text';
import { DomainError } from '#lib/errors';
import { signIn as command } from '../../commands/ownerSecret';
import { done, doneSchema } from '../done';
import { publicProcedure } from '../trpc';
import { startSession } from './startSession';

/** The owner on another device: her passphrase, or one of her recovery codes. */
export const signIn = publicProcedure
  .input(z.strictObject({ passphrase: line(200, 1) }))
  .output(doneSchema)
  .mutation(async ({ ctx, input }) => {
    if (ctx.device) throw new DomainError('in-use');
    startSession(ctx, await command(ctx.runtime, ctx, input.passphrase));
    return done;
  });
