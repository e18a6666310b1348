import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { planSchema } from '#lib/contract/plan';
import { evaluationInputSchema, purposeSchema, slotInputSchema } from '#lib/contract/setup';
import { saveSetup } from '../../commands/saveSetup';
import { actorOf } from '../../commands/actorOf';
import { preparing } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const save = memberProcedure
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
    const { viewer } = preparing(ctx, id);
    saveSetup(ctx.runtime, id, { ...setup, actor: actorOf(viewer) });
    return done;
  });
