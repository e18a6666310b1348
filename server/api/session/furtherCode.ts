import { z } from 'zod';
import { spokenCodeSchema } from '#lib/contract/sessionView';
import { makeFurtherCode } from '../../commands/makeSpokenCode';
import { memberProcedure } from '../trpc';

/** A code by which a further device of the same person may ask to be let in. */
export const furtherCode = memberProcedure
  .input(z.void())
  .output(spokenCodeSchema)
  .mutation(({ ctx: { runtime, device } }) => makeFurtherCode(runtime, device.owner ? null : device.seatId));
