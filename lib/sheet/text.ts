import * as z from 'zod/mini';

/** Trimmed text of 1 to `most` characters. Owners type their own sheets, so every field has a limit. */
export const text = (most: number) => z.string().check(z.trim(), z.minLength(1), z.maxLength(most));
