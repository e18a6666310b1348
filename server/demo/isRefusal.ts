import { z } from 'zod';
import { domainErrorCodes } from '#lib/errors';

const refusalSchema = z.object({ data: z.object({ code: z.enum(domainErrorCodes) }) });

/** Whether a client's error is one of the server's coded refusals. */
export const isRefusal = (error: unknown): boolean => refusalSchema.safeParse(error).success;
