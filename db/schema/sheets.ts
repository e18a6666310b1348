import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { flag } from './columns';

/** `body` is a sheet as lib/sheet describes it. A built-in sheet is never changed, only copied. */
export const sheet = sqliteTable('sheet', {
  id: text('id').primaryKey(),
  builtIn: flag('built_in'),
  body: text('body').notNull(),
  createdAt: integer('created_at').notNull(),
});
