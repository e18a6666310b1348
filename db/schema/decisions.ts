import { sql } from 'drizzle-orm';
import { check, index, integer, primaryKey, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { device } from './devices';
import { evaluation } from './evaluations';
import { puppy } from './litters';
import { lookBatch } from './looks';
import { slot } from './plans';
import { round } from './rounds';
import { seat } from './seats';

/** A note of the talk. Made while a round or a batch of looks is open, it is its author's alone until that is revealed. */
export const discussionNote = sqliteTable('discussion_note', {
  id: text('id').primaryKey(),
  evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
  seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
  /** Null in notes from before it was kept. */
  deviceId: text('device_id').references(() => device.id, { onDelete: 'restrict' }),
  /** The newest round, and the open batch of looks, when it was made. */
  roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
  lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
  slotId: text('slot_id').references(() => slot.id, { onDelete: 'restrict' }),
  puppyId: text('puppy_id').references(() => puppy.id, { onDelete: 'restrict' }),
  /** The other of a pair, where the note is about two. */
  otherPuppyId: text('other_puppy_id').references(() => puppy.id, { onDelete: 'restrict' }),
  criterion: text('criterion'),
  text: text('text').notNull(),
  at: integer('at').notNull(),
});

/** A recorded veterinary answer that lets a hold fall. */
export const clearance = sqliteTable(
  'clearance',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    check: text('check').notNull(),
    answer: text('answer').notNull(),
    by: text('by').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.puppyId, t.check] })],
);

/** Append-only; the newest row of a slot counts. A place may be left empty on purpose, and a decision taken back. */
export const decision = sqliteTable(
  'decision',
  {
    id: text('id').primaryKey(),
    seq: integer('seq').notNull(),
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    slotId: text('slot_id').notNull().references(() => slot.id, { onDelete: 'restrict' }),
    outcome: text('outcome', { enum: ['picked', 'nobody', 'taken-back'] }).notNull(),
    puppyId: text('puppy_id').references(() => puppy.id, { onDelete: 'restrict' }),
    by: text('by').notNull(),
    reason: text('reason').notNull(),
    preference: integer('preference').notNull(),
    followedPanel: integer('followed_panel'),
    at: integer('at').notNull(),
  },
  (t) => [
    index('decision_slot').on(t.slotId),
    check('decision_outcome', sql`${t.outcome} in ('picked','nobody','taken-back') and (${t.outcome} = 'picked') = (${t.puppyId} is not null)`),
  ],
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
