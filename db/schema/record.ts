import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { evaluation } from './evaluations';

export const boot = sqliteTable('boot', { at: integer('at').notNull() });

/** What happened, in order: each row's hash covers the row before. Triggers refuse UPDATE and DELETE. */
export const record = sqliteTable('record', {
  seq: integer('seq').primaryKey(),
  evaluationId: text('evaluation_id').references(() => evaluation.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
  actor: text('actor').notNull(),
  kind: text('kind').notNull(),
  body: text('body').notNull(),
  previousHash: text('previous_hash').notNull(),
  hash: text('hash').notNull(),
});

/** One counter per audience: a seat's own counter moves with its own entries only, so no number tells of another's (BL4). */
export const audienceVersion = sqliteTable(
  'audience_version',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    audience: text('audience').notNull(),
    version: integer('version').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.audience] })],
);
