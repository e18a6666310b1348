import { sql } from 'drizzle-orm';
import { check, index, integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { device } from './devices';
import { evaluation } from './evaluations';
import { round, showing } from './rounds';
import { seat } from './seats';

/** Every change a device made, for good: triggers refuse UPDATE and DELETE. */
export const entry = sqliteTable(
  'entry',
  {
    id: text('id').primaryKey(),
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    subject: text('subject').notNull(),
    field: text('field').notNull(),
    counter: integer('counter').notNull(),
    body: text('body').notNull(),
    value: integer('value'),
    status: text('status', { enum: ['applied', 'superseded', 'late'] }).notNull(),
    madeAt: integer('made_at').notNull(),
    receivedAt: integer('received_at').notNull(),
  },
  (t) => [
    index('entry_register').on(t.roundId, t.seatId, t.subject, t.field),
    check('entry_value', sql`${t.value} is null or ${t.value} between -3 and 11`),
  ],
);

/** The answer in force for one seat, subject and field: the entry with the highest counter, then device. */
export const answer = sqliteTable(
  'answer',
  {
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    subject: text('subject').notNull(),
    field: text('field').notNull(),
    counter: integer('counter').notNull(),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    entryId: text('entry_id')
      .notNull()
      .references(() => entry.id, { onDelete: 'restrict' }),
    body: text('body').notNull(),
    value: integer('value'),
  },
  (t) => [
    primaryKey({ columns: [t.roundId, t.seatId, t.subject, t.field] }),
    check('answer_value', sql`${t.value} is null or ${t.value} between -3 and 11`),
  ],
);

/**
 * The owner typed one card of a seat on paper: when, by which device, and how many answers it has. Append-only; of one showing the newest
 * counts. Its entries stand with all others.
 */
export const paperCard = sqliteTable(
  'paper_card',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull().unique(),
    roundId: text('round_id')
      .notNull()
      .references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    showingId: text('showing_id')
      .notNull()
      .references(() => showing.id, { onDelete: 'restrict' }),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    answers: integer('answers').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [index('paper_card_round').on(t.roundId)],
);

/** A seat's practice on drawn pictures: written once, at its own lock, and never part of a result. */
export const practiceCard = sqliteTable(
  'practice_card',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    /** The device that locked it; null in cards from before it was kept. */
    deviceId: text('device_id').references(() => device.id, { onDelete: 'restrict' }),
    /** lib/contract/practice, as JSON. */
    answers: text('answers').notNull(),
    lockedAt: integer('locked_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);
