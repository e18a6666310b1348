import { z } from 'zod';

/** The answer of a change that has nothing to tell but that it is made. */
export const doneSchema = z.strictObject({ done: z.literal(true) });
export const done = { done: true } as const;
