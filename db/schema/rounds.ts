import { sql } from 'drizzle-orm';
import { check, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { flag } from './columns';
import { evaluation } from './evaluations';
import { puppy } from './litters';
import { seat } from './seats';

export const round = sqliteTable(
  'round',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    occasion: text('occasion', { enum: ['first', 'second', 'practice', 'lesson'] }).notNull(),
    medium: text('medium', { enum: ['table', 'photographs'] }).notNull(),
    state: text('state', { enum: ['open', 'closed', 'revealed'] }).notNull(),
    openedAt: integer('opened_at').notNull(),
    closedAt: integer('closed_at'),
    revealedAt: integer('revealed_at'),
    /** Hides what the record binds of the round's terms: weights could be guessed from a bare hash. Null for a round older than that. */
    termsNonce: text('terms_nonce'),
  },
  (t) => [
    uniqueIndex('round_place').on(t.evaluationId, t.position),
    check('round_state', sql`${t.state} in ('open','closed','revealed')`),
    check('round_revealed', sql`(${t.state} = 'revealed') = (${t.revealedAt} is not null)`),
  ],
);

export const showing = sqliteTable(
  'showing',
  {
    id: text('id').primaryKey(),
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    place: integer('place').notNull(),
    repeat: flag('repeat'),
  },
  (t) => [uniqueIndex('showing_place').on(t.roundId, t.place)],
);

export const seatRound = sqliteTable(
  'seat_round',
  {
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    lockedAt: integer('locked_at'),
  },
  (t) => [primaryKey({ columns: [t.roundId, t.seatId] })],
);

/** What a second round is about: these cells and no other (puppy and criterion). */
export const roundCell = sqliteTable(
  'round_cell',
  {
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    criterion: text('criterion').notNull(),
  },
  (t) => [primaryKey({ columns: [t.roundId, t.puppyId, t.criterion] })],
);
