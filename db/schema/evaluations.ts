import { sql } from 'drizzle-orm';
import { check, integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { litter, puppy } from './litters';
import { sheet } from './sheets';

export const evaluation = sqliteTable(
  'evaluation',
  {
    id: text('id').primaryKey(),
    litterId: text('litter_id')
      .notNull()
      .references(() => litter.id, { onDelete: 'restrict' }),
    sheetId: text('sheet_id')
      .notNull()
      .references(() => sheet.id, { onDelete: 'restrict' }),
    /** The sheet as it was when the first round opened; until then the live one counts. */
    frozenSheet: text('frozen_sheet'),
    name: text('name').notNull(),
    heldOn: text('held_on').notNull(),
    medium: text('medium', { enum: ['table', 'photographs'] }).notNull(),
    callLink: text('call_link').notNull(),
    callNumber: text('call_number').notNull(),
    tableNote: text('table_note').notNull(),
    phase: text('phase', { enum: ['preparing', 'scoring', 'deciding', 'sealed'] }).notNull(),
    /** Puppy ids as JSON, in the order they come to the table. */
    showingOrder: text('showing_order').notNull(),
    tableShowingId: text('table_showing_id'),
    createdAt: integer('created_at').notNull(),
    sealedAt: integer('sealed_at'),
  },
  (t) => [check('evaluation_phase', sql`${t.phase} in ('preparing','scoring','deciding','sealed')`)],
);

export const withdrawal = sqliteTable(
  'withdrawal',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    reason: text('reason').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.puppyId] })],
);
