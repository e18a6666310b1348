import { z } from 'zod';

/** 128 random bits in hex, made by whoever creates the thing: a device's id for its own entries is made before sending. */
export const idSchema = z.string().regex(/^[0-9a-f]{32}$/);
