import { integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { evaluation } from './evaluations';

/** An evaluation that came in a file from another server: it is read here and never changed. Triggers refuse UPDATE and DELETE. */
export const imported = sqliteTable('imported', {
  evaluationId: text('evaluation_id')
    .primaryKey()
    .references(() => evaluation.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
  /** When the file was first written, and the newest line of the record of the server that wrote it. */
  writtenAt: integer('written_at').notNull(),
  headSeq: integer('head_seq').notNull(),
  headHash: text('head_hash').notNull(),
});

/** The lines that another server's record holds of it, with their numbers and hashes there. Triggers refuse UPDATE and DELETE. */
export const importedLine = sqliteTable(
  'imported_line',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    seq: integer('seq').notNull(),
    at: integer('at').notNull(),
    actor: text('actor').notNull(),
    kind: text('kind').notNull(),
    body: text('body').notNull(),
    previousHash: text('previous_hash').notNull(),
    hash: text('hash').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seq] })],
);
