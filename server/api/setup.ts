import { z } from 'zod';
import { setupView } from '#lib/blind/setupView';
import { setupViewSchema } from '#lib/contract/evaluationView';
import { idSchema } from '#lib/contract/fields';
import { planSchema } from '#lib/contract/plan';
import { spokenCodeSchema } from '#lib/contract/sessionView';
import { evaluationInputSchema, purposeSchema, seatInputSchema, slotInputSchema } from '#lib/contract/setup';
import { confirmPickOrder, inviteSeat, reissueSeat, removePanelSeat, savePanelSeat } from '../commands/seats';
import { createEvaluation, saveSetup } from '../commands/setup';
import { endSeatDevices } from '../commands/devices';
import { makeSpokenCode } from '../commands/joining';
import { preparing } from './access';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const setupRouter = router({
  confirmPickOrder: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      confirmPickOrder(ctx, input.id);
      return done;
    }),

  create: ownerProcedure
    .input(z.strictObject({ litterId: idSchema, sheetId: idSchema, input: evaluationInputSchema }))
    .output(z.strictObject({ id: idSchema }))
    .mutation(({ ctx, input }) => ({ id: createEvaluation(ctx.runtime, { ...input, newId: madeId(ctx) }) })),

  /** Ends every session of a seat, at once. */
  endSeat: ownerProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      endSeatDevices(ctx.runtime, { evaluationId: input.id, seatId: input.seatId });
      return done;
    }),

  /** For whoever prepares: the owner, or an organiser. */
  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(setupViewSchema)
    .query(({ ctx, input }) => setupView(preparing(ctx, input.id).facts)),

  /** The token goes into the fragment of a link, so that it reaches no log; it is shown this once. */
  invite: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(z.strictObject({ token: z.string() }))
    .mutation(({ ctx, input: { id, seatId } }) => ({ token: inviteSeat(ctx, { evaluationId: id, seatId }) })),

  /** For a lost device: ends its session and makes a new link, shown this once. */
  reissue: ownerProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(z.strictObject({ token: z.string() }))
    .mutation(({ ctx, input }) => ({
      token: reissueSeat(ctx.runtime, { evaluationId: input.id, seatId: input.seatId }),
    })),

  removeSeat: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, seatId } }) => {
      removePanelSeat(ctx, { evaluationId: id, seatId });
      return done;
    }),

  save: memberProcedure
    .input(
      z.strictObject({
        id: idSchema,
        input: evaluationInputSchema,
        sheetId: idSchema,
        purposes: z.array(purposeSchema).min(1).max(3),
        slots: z.array(slotInputSchema).max(12),
        order: z.array(idSchema).max(20),
        plan: planSchema,
      }),
    )
    .output(doneSchema)
    .mutation(({ ctx, input: { id, ...setup } }) => {
      saveSetup(ctx, id, setup);
      return done;
    }),

  /** A null seatId adds a seat. */
  saveSeat: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema.nullable(), seat: seatInputSchema }))
    .output(z.strictObject({ id: idSchema }))
    .mutation(({ ctx, input: { id, seatId, seat } }) => ({
      id: savePanelSeat(ctx, { evaluationId: id, seatId, newId: madeId(ctx), input: seat }),
    })),

  /** A code to be read to whoever takes this seat, or to whoever holds it for a further device; shown this once. */
  spokenCode: memberProcedure
    .input(z.strictObject({ id: idSchema, seatId: idSchema }))
    .output(spokenCodeSchema)
    .mutation(({ ctx, input: { id, seatId } }) => makeSpokenCode(ctx, { evaluationId: id, seatId })),
});
