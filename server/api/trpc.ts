import { initTRPC, TRPCError } from '@trpc/server';
import { z } from 'zod';
import { settleFault, storageFault } from '#db/storageFault';
import { DomainError, type DomainErrorCode } from '#lib/errors';
import { type Context, refuseOtherVersion } from './context';
import { errorMap } from './errorMap';

/**
 * One place turns errors into answers. A refusal leaves with its code and details; faulty input with the path of the
 * first fault; a failing disk under its own code; anything unknown as a fixed word with the request id, its cause going to the log only.
 */
const trpc = initTRPC.context<Context>().create({
  isDev: false,
  errorFormatter: ({ shape, error, ctx }) => {
    const { cause } = error;
    const refusal = refusalIn(cause);
    const faulty =
      error.code === 'BAD_REQUEST' || error.code === 'PARSE_ERROR' || error.code === 'UNSUPPORTED_MEDIA_TYPE';
    const known =
      refusal?.code ??
      (faulty
        ? 'bad-input'
        : error.code === 'PAYLOAD_TOO_LARGE'
          ? 'too-large'
          : error.code === 'NOT_FOUND' || error.code === 'METHOD_NOT_SUPPORTED'
            ? 'not-found'
            : 'unknown');
    return {
      code: shape.code,
      message: known,
      data: {
        code: known,
        details: refusal?.details ?? {},
        httpStatus: shape.data.httpStatus,
        requestId: ctx?.requestId ?? '',
      },
    };
  },
});

const mapErrors = trpc.middleware(async ({ ctx, next, path }) => {
  const result = await next();
  if (result.ok) return result;
  const { cause } = result.error;
  if (cause instanceof DomainError) throw new TRPCError({ code: errorMap[cause.code], message: cause.code, cause });
  const fault = settleFault(ctx.runtime.db, cause);
  if (fault) {
    ctx.log(`${ctx.requestId} ${path}: ${fault}: ${cause?.message ?? ''}`);
    throw new TRPCError({ code: errorMap[fault], message: fault, cause: new DomainError(fault) });
  }
  if (result.error.code === 'INTERNAL_SERVER_ERROR')
    ctx.log(`${ctx.requestId} ${path}: ${cause?.stack ?? result.error.message}`);
  return result;
});

type Refusal = { readonly code: DomainErrorCode; readonly details: DomainError['details'] };

/** A refusal of ours, or the disk's: a fault met before any procedure ran comes here as it is. */
function refusalIn(cause: unknown): Refusal | null {
  if (cause instanceof DomainError) return { code: cause.code, details: cause.details };
  const fault = storageFault(cause);
  return fault && { code: fault, details: {} };
}

/** The answer of a change that has nothing to tell but that it is made. */
export const doneSchema = z.strictObject({ done: z.literal(true) });
export const done = { done: true } as const;

export const router = trpc.router;
/** For procedures that anyone may call: joining, and asking who one is. A change from a page of another version is refused before its input is looked at. */
export const publicProcedure = trpc.procedure.use(mapErrors).use(({ ctx, next, type }) => {
  if (type === 'mutation') refuseOtherVersion(ctx);
  return next();
});

/** For a device with a session, whatever it may do, within the rate at which one device may change things. */
export const memberProcedure = publicProcedure.use(({ ctx, next, type }) => {
  if (!ctx.device) throw new DomainError('not-signed-in');
  if (type === 'mutation') ctx.limits.spend('writes', ctx.device.id, ctx.runtime.clock.now());
  return next({ ctx: { ...ctx, device: ctx.device } });
});

/** For the owner only. */
export const ownerProcedure = memberProcedure.use(({ ctx, next }) => {
  if (!ctx.device.owner) throw new DomainError('not-allowed');
  return next();
});
