import { sql } from 'drizzle-orm';
import { check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { device } from './devices';
import { evaluation } from './evaluations';
import { puppy } from './litters';
import { slot } from './plans';
import { seat } from './seats';

/** One batch of second looks; its looks are fixed when it opens (BL8). */
export const lookBatch = sqliteTable(
  'look_batch',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    slotId: text('slot_id')
      .notNull()
      .references(() => slot.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    state: text('state', { enum: ['open', 'closed', 'revealed'] }).notNull(),
    medium: text('medium', { enum: ['table', 'photographs'] })
      .notNull()
      .default('table'),
    openedAt: integer('opened_at').notNull(),
    revealedAt: integer('revealed_at'),
  },
  (t) => [
    uniqueIndex('look_batch_place').on(t.evaluationId, t.position),
    check('look_batch_state', sql`${t.state} in ('open','closed','revealed')`),
  ],
);

export const look = sqliteTable(
  'look',
  {
    id: text('id').primaryKey(),
    batchId: text('batch_id')
      .notNull()
      .references(() => lookBatch.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    firstPuppyId: text('first_puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    secondPuppyId: text('second_puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    firstOnLeft: integer('first_on_left').notNull(),
    repeat: integer('repeat').notNull().default(0),
  },
  (t) => [uniqueIndex('look_place').on(t.batchId, t.position)],
);

/** Append-only; the newest by receipt counts while the batch is open. */
export const lookAnswer = sqliteTable(
  'look_answer',
  {
    id: text('id').primaryKey(),
    seq: integer('seq').notNull(),
    lookId: text('look_id')
      .notNull()
      .references(() => look.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    choice: text('choice', { enum: ['first', 'second', 'tie'] }).notNull(),
    criterion: text('criterion'),
    madeAt: integer('made_at').notNull(),
    receivedAt: integer('received_at').notNull(),
  },
  (t) => [
    index('look_answer_look').on(t.lookId, t.seatId),
    check('look_choice', sql`${t.choice} in ('first','second','tie')`),
  ],
);
