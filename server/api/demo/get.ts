import { z } from 'zod';
import { demoViewSchema } from '#lib/contract/demoView';
import { memberProcedure } from '../trpc';
import { copyOf } from './copyOf';

/** The visitor's copy: which two evaluations it has, and how long it stays. */
export const get = memberProcedure.input(z.void()).output(demoViewSchema).query(({ ctx }) => copyOf(ctx.runtime).view());
