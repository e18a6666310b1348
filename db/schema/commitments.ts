import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { round } from './rounds';
import { seat } from './seats';

/**
 * What a seat's cards were when it locked, or when the round closed over it: a hash that says nothing until its nonce is
 * opened at the reveal. The nonce is score data: only the reveal and the check of a data file may read it. A reopened
 * round voids its commitments, which stay; triggers refuse DELETE and every other UPDATE.
 */
export const commitment = sqliteTable(
  'commitment',
  {
    id: text('id').primaryKey(),
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    nonce: text('nonce').notNull(),
    hash: text('hash').notNull(),
    madeBy: text('made_by', { enum: ['device', 'server'] }).notNull(),
    madeAt: integer('made_at').notNull(),
    voidedAt: integer('voided_at'),
  },
  (t) => [
    uniqueIndex('commitment_standing').on(t.roundId, t.seatId).where(sql`${t.voidedAt} is null`),
    check('commitment_made_by', sql`${t.madeBy} in ('device','server')`),
  ],
);
