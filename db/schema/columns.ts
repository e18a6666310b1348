import { integer } from 'drizzle-orm/sqlite-core';

/**
 * Ids are 32 hex digits, times are milliseconds UTC, JSON is text. Every table is STRICT (added to the generated SQL by
 * db/generate.mjs). No cascade anywhere: nothing that holds scores goes because something else went (SC3).
 */
export const flag = (name: string) => integer(name).notNull().default(0);
