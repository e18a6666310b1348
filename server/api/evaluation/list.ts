import { z } from 'zod';
import { listEvaluations } from '#db/queries/listEvaluations';
import { evaluationLineSchema } from '#lib/contract/evaluationView';
import { ownerProcedure } from '../trpc';

export const list = ownerProcedure.input(z.void()).output(z.array(evaluationLineSchema)).query(({ ctx }) => listEvaluations(ctx.runtime.db));
