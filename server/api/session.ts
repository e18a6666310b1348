import { z } from 'zod';
import { findDevice, findDeviceRequest, listDeviceRequests, listDevices, revokeDevice } from '#db/queries/devices';
import { getSeat } from '#db/queries/seats';
import { sessionLife } from '#lib/access/sessionLife';
import { readCode, spokenLength, spokenNameLength } from '#lib/access/spokenCode';
import { idSchema, line } from '#lib/contract/fields';
import { devicesViewSchema, type SessionView, sessionViewSchema, spokenCodeSchema } from '#lib/contract/sessionView';
import { DomainError } from '#lib/errors';
import { answerFurtherDevice, endOwnDevice } from '../commands/devices';
import { hashSpoken, joinByCode, joinByLink, makeFurtherCode, refuseSecondPlace } from '../commands/joining';
import { signIn } from '../commands/owner';
import { hashToken } from '../random';
import { sessionSecret } from './callId';
import type { Context } from './context';
import { done, doneSchema, memberProcedure, publicProcedure, router } from './trpc';

function asking({ runtime, secretHash }: Context): SessionView['asking'] {
  const request = secretHash === null ? undefined : findDeviceRequest(runtime.db, secretHash);
  // One that was let in and whose session has ended since is a stranger again.
  if (!request || request.approved === 1) return null;
  const over = request.expiresAt <= runtime.clock.now();
  return { digits: request.digits, state: request.approved === 0 ? 'refused' : over ? 'over' : 'waiting' };
}

/** Gives the browser its session for as long as it may live; a secret that stands for no device yet, for as long as a seat's. */
function startSession({ runtime, setSession }: Pick<Context, 'runtime' | 'setSession'>, secret: string): void {
  const owner = findDevice(runtime.db, hashToken(secret))?.owner ?? false;
  setSession(secret, owner ? sessionLife.owner.whole : sessionLife.seat.whole);
}

export const sessionRouter = router({
  /** BL9: lets a further device of the asker's own seat in, or refuses it. */
  answerDevice: memberProcedure
    .input(z.strictObject({ requestId: idSchema, letIn: z.boolean() }))
    .output(doneSchema)
    .mutation(({ ctx: { runtime, device }, input }) => {
      answerFurtherDevice(runtime, { ...input, device });
      return done;
    }),

  /** The devices of the asker's own seat, or of the owner, and those that ask to be let in. */
  devices: memberProcedure
    .input(z.void())
    .output(devicesViewSchema)
    .query(({ ctx: { runtime, device } }) => {
      const seatId = device.owner ? null : device.seatId;
      return {
        devices: listDevices(runtime.db, seatId).map(({ id, createdAt, seenAt, cameBy }) => ({
          id,
          createdAt,
          seenAt,
          cameBy,
          here: id === device.id,
        })),
        asking: listDeviceRequests(runtime.db, { seatId, now: runtime.clock.now() }).map(({ id, digits, askedAt }) => ({
          id,
          digits,
          askedAt,
        })),
      };
    }),

  /** Ends another device of the asker's own, at once. */
  endDevice: memberProcedure
    .input(z.strictObject({ deviceId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx: { runtime, device }, input }) => {
      endOwnDevice(runtime, device, input.deviceId);
      return done;
    }),

  /** A code by which a further device of the same person may ask to be let in. */
  furtherCode: memberProcedure
    .input(z.void())
    .output(spokenCodeSchema)
    .mutation(({ ctx: { runtime, device } }) => makeFurtherCode(runtime, device.owner ? null : device.seatId)),

  /**
   * Exchanges a one-time link for a session. A browser that has one already is refused, so that nobody ends up with two
   * seats. A link is too long to be guessed, so that no limit keeps a right one waiting.
   */
  join: publicProcedure
    .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
    .output(z.strictObject({ joined: z.literal(true) }))
    .mutation(({ ctx, input }) => {
      const secret = sessionSecret(ctx, input.token);
      if (ctx.device && ctx.secretHash !== hashToken(secret))
        refuseSecondPlace(ctx.runtime, ctx.device, hashToken(input.token));
      startSession(ctx, joinByLink(ctx.runtime, { token: input.token, secret }));
      return { joined: true as const };
    }),

  /** Exchanges a spoken code, typed as it was heard. `waiting`: a device of the seat has to let this one in first. */
  joinByCode: publicProcedure
    .input(z.strictObject({ code: line(40, 1) }))
    .output(z.strictObject({ waiting: z.boolean() }))
    .mutation(async ({ ctx, input }) => {
      const code = readCode(input.code, spokenLength);
      // What cannot be a code is no guess.
      if (code === null) throw new DomainError('bad-input', { field: 'code' });
      const { runtime, device, limits, address } = ctx;
      const wanted = sessionSecret(ctx, code);
      if (device && ctx.secretHash !== hashToken(wanted)) refuseSecondPlace(runtime, device, hashSpoken(code));
      const { secret, waiting } = await limits.guess(
        { door: 'code', name: code.slice(0, spokenNameLength), address, now: runtime.clock.now() },
        () => joinByCode(runtime, { code, secret: wanted }),
      );
      startSession(ctx, secret);
      return { waiting };
    }),

  /** Ends this device's session at once, sockets included. */
  leave: memberProcedure
    .input(z.void())
    .output(z.strictObject({ left: z.literal(true) }))
    .mutation(({ ctx }) => {
      revokeDevice(ctx.runtime.db, ctx.device.id, ctx.runtime.clock.now());
      ctx.setSession('');
      ctx.runtime.hub.dismiss(ctx.device.id);
      return { left: true as const };
    }),

  /** Who this browser is; answers for strangers too, and for a further device that waits to be let in. */
  me: publicProcedure
    .input(z.void())
    .output(sessionViewSchema)
    .query(({ ctx }) => {
      const seatId = ctx.device?.seatId ?? null;
      const seat = seatId === null ? null : getSeat(ctx.runtime.db, seatId);
      return {
        owner: ctx.device?.owner ?? false,
        seat: seat && { id: seat.id, label: seat.label, evaluationId: seat.evaluationId },
        asking: ctx.device ? null : asking(ctx),
        demo: ctx.runtime.demo !== null,
      };
    }),

  /** The owner on another device: her passphrase, or one of her recovery codes. */
  signIn: publicProcedure
    .input(z.strictObject({ passphrase: line(200, 1) }))
    .output(doneSchema)
    .mutation(async ({ ctx, input }) => {
      const secret = sessionSecret(ctx, input.passphrase);
      if (ctx.device && ctx.secretHash !== hashToken(secret)) throw new DomainError('in-use');
      startSession(ctx, await signIn(ctx.runtime, ctx, { typed: input.passphrase, secret }));
      return done;
    }),
});
