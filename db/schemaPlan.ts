import { sql } from 'drizzle-orm';
import { check, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { device, evaluation, puppy, round, seat } from './schema';
import { lookBatch } from './schemaAfterReveal';

/** What was agreed about the day before it began; a missing row is the plan of lib/contract/plan. */
export const plan = sqliteTable(
  'plan',
  {
    evaluationId: text('evaluation_id').primaryKey().references(() => evaluation.id, { onDelete: 'restrict' }),
    kind: text('kind', { enum: ['panel', 'lesson'] }).notNull(),
    /** In a lesson: whose cards are compared with the mentor's. */
    learnerSeatId: text('learner_seat_id').references(() => seat.id, { onDelete: 'restrict' }),
    discussion: text('discussion', { enum: ['roles', 'anonymous'] }).notNull(),
    silentRepeat: integer('silent_repeat').notNull(),
    hoursSinceMeal: real('hours_since_meal'),
    lookBatches: integer('look_batches').notNull(),
    /** Whether seats see which puppy is which before the reveal. */
    identity: text('identity', { enum: ['shown', 'coded'] }).notNull().default('shown'),
  },
  (t) => [
    check('plan_kind', sql`${t.kind} in ('panel','lesson')`),
    check('plan_discussion', sql`${t.discussion} in ('roles','anonymous')`),
    check('plan_look_batches', sql`${t.lookBatches} between 1 and 6`),
  ],
);

/** What a second round is about: these cells and no other (puppy and criterion). */
export const roundCell = sqliteTable(
  'round_cell',
  {
    roundId: text('round_id').notNull().references(() => round.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    criterion: text('criterion').notNull(),
  },
  (t) => [primaryKey({ columns: [t.roundId, t.puppyId, t.criterion] })],
);

/** A party's word that it has read the pick order: of one wording, so that a change asks again. */
export const confirmation = sqliteTable(
  'confirmation',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    /** lib/evaluation/pickOrderText, as it stood. */
    wording: text('wording').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);

/** Who asks to speak, since when, and under what it was asked, as a note. A row goes when the seat has spoken: it is no record. */
export const raisedHand = sqliteTable(
  'raised_hand',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id').references(() => device.id, { onDelete: 'restrict' }),
    roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
    lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);

/** A seat's practice on drawn pictures: written once, at its own lock, and never part of a result. */
export const practiceCard = sqliteTable(
  'practice_card',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    /** The device that locked it; null in cards from before it was kept. */
    deviceId: text('device_id').references(() => device.id, { onDelete: 'restrict' }),
    /** lib/contract/practice, as JSON. */
    answers: text('answers').notNull(),
    lockedAt: integer('locked_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);
