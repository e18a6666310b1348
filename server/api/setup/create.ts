import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { evaluationInputSchema } from '#lib/contract/setup';
import { createEvaluation } from '../../commands/createEvaluation';
import { madeId } from '../callId';
import { ownerProcedure } from '../trpc';

export const create = ownerProcedure
  .input(z.strictObject({ litterId: idSchema, sheetId: idSchema, input: evaluationInputSchema }))
  .output(z.strictObject({ id: idSchema }))
  .mutation(({ ctx, input }) => ({ id: createEvaluation(ctx.runtime, { ...input, newId: madeId(ctx) }) }));
