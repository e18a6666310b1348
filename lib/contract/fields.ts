import { z } from 'zod';

/** 128 random bits in hex, made by whoever creates the thing: a device's id for its own entries is made before sending. */
export const idSchema = z.string().regex(/^[0-9a-f]{32}$/);

/** One line of typing: trimmed, no control characters. May be empty unless `min` says otherwise. */
export const line = (max: number, min = 0) =>
  z
    .string()
    .trim()
    .min(min)
    .max(max)
    // eslint-disable-next-line no-control-regex -- control characters are exactly what a typed line must not carry
    .regex(/^[^\u0000-\u001f\u007f]*$/);

/** Several lines of typing, trimmed. */
export const paragraph = (max: number) => z.string().trim().max(max);

/** A calendar day, YYYY-MM-DD, that exists. */
export const daySchema = z.iso.date();
