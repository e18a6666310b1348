import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { flag } from './columns';
import { evaluation } from './evaluations';

export const seat = sqliteTable(
  'seat',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    label: text('label').notNull(),
    kind: text('kind', { enum: ['hands', 'live', 'photographs', 'none'] }).notNull(),
    leads: flag('leads'),
    picks: flag('picks'),
    /** May prepare the set-up and lead the table; never scores, never decides. */
    organises: flag('organises'),
    /** Reads what is revealed, without scoring. */
    reads: flag('reads'),
    interest: text('interest').notNull(),
    /** The owner's own seat: taken from her session, never by link. */
    owner: flag('owner'),
    /** Has no device: answers on printed sheets that the owner types in. Frozen by the first round. */
    paper: flag('paper'),
  },
  (t) => [
    uniqueIndex('seat_place').on(t.evaluationId, t.position),
    check('seat_kind', sql`${t.kind} in ('hands','live','photographs','none')`),
  ],
);

/**
 * A person's words were removed from a seat: its label, its interest and what it wrote. Append-only; while `done` is 0, within
 * the removing transaction, the triggers of append-only tables let words of that evaluation be overwritten, and nothing else.
 */
export const removal = sqliteTable('removal', {
  seatId: text('seat_id')
    .primaryKey()
    .references(() => seat.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
  done: integer('done').notNull().default(0),
});
