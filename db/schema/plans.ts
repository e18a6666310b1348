import { sql } from 'drizzle-orm';
import { check, integer, primaryKey, real, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { evaluation } from './evaluations';
import { seat } from './seats';

export const purpose = sqliteTable(
  'purpose',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    key: text('key', { enum: ['keep', 'working', 'companion'] }).notNull(),
    weights: text('weights').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.key] })],
);

export const slot = sqliteTable(
  'slot',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    taker: text('taker').notNull(),
    seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
    purpose: text('purpose', { enum: ['keep', 'working', 'companion'] }).notNull(),
    sex: text('sex', { enum: ['any', 'dog', 'bitch'] }).notNull(),
    condition: text('condition').notNull(),
    byWhen: text('by_when').notNull(),
    ifFails: text('if_fails').notNull(),
  },
  (t) => [uniqueIndex('slot_place').on(t.evaluationId, t.position)],
);

/** The views an evaluation's owner wants of each puppy, as JSON; absent while she keeps the usual list. */
export const shotList = sqliteTable('shot_list', {
  evaluationId: text('evaluation_id')
    .primaryKey()
    .references(() => evaluation.id, { onDelete: 'restrict' }),
  body: text('body').notNull(),
});

/** What was agreed about the day before it began; a missing row is the plan of lib/contract/plan. */
export const plan = sqliteTable(
  'plan',
  {
    evaluationId: text('evaluation_id')
      .primaryKey()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    kind: text('kind', { enum: ['panel', 'lesson'] }).notNull(),
    /** In a lesson: whose cards are compared with the mentor's. */
    learnerSeatId: text('learner_seat_id').references(() => seat.id, { onDelete: 'restrict' }),
    discussion: text('discussion', { enum: ['roles', 'anonymous'] }).notNull(),
    silentRepeat: integer('silent_repeat').notNull(),
    hoursSinceMeal: real('hours_since_meal'),
    lookBatches: integer('look_batches').notNull(),
    /** Whether seats see which puppy is which before the reveal. */
    identity: text('identity', { enum: ['shown', 'coded'] })
      .notNull()
      .default('shown'),
  },
  (t) => [
    check('plan_kind', sql`${t.kind} in ('panel','lesson')`),
    check('plan_discussion', sql`${t.discussion} in ('roles','anonymous')`),
    check('plan_look_batches', sql`${t.lookBatches} between 1 and 6`),
  ],
);

/** A party's word that it has read the pick order: of one wording, so that a change asks again. */
export const confirmation = sqliteTable(
  'confirmation',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    /** What `pickOrderWording` said, as it stood. */
    wording: text('wording').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);
