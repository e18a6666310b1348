import { z } from 'zod';
import { coefficientsView } from '#lib/blind/coefficientsView';
import { coefficientsViewSchema } from '#lib/contract/boardView';
import { idSchema } from '#lib/contract/id';
import { readAgreement } from '../../reveal/readAgreement';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** The drawer's coefficients, computed when it opens. */
export const coefficients = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(coefficientsViewSchema)
  .query(async ({ ctx: { runtime, device, limits }, input }) => {
    limits.spend('coefficients', device.id, runtime.clock.now());
    const { facts } = reading({ runtime, device }, input.id);
    return coefficientsView(await readAgreement(runtime, facts));
  });
