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
  evaluationId: text('evaluation_id')
    .notNull()
    .references(() => evaluation.id, { onDelete: 'restrict' }),
  seatId: text('seat_id')
    .notNull()
    .references(() => seat.id, { onDelete: 'restrict' }),
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

/**
 * What a veterinary surgeon said to a hold, and what the owner chose on it. Append-only: of the answers to one check of one
 * puppy the newest counts, the earlier ones stay to be read.
 */
export const clearance = sqliteTable(
  'clearance',
  {
    seq: integer('seq').primaryKey(),
    /** Null in answers from before a repeat was told from a new one (SC2). */
    id: text('id').unique(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    check: text('check').notNull(),
    answer: text('answer').notNull(),
    by: text('by').notNull(),
    /** Null in answers from before there was a choice: whatever they said, the hold fell. */
    choice: text('choice', { enum: ['cleared', 'again', 'stays'] }),
    againOn: text('again_on'),
    at: integer('at').notNull(),
  },
  (t) => [
    index('clearance_check').on(t.evaluationId, t.puppyId, t.check),
    check(
      'clearance_choice',
      sql`ifnull(${t.choice}, 'stays') in ('cleared','again','stays') and (ifnull(${t.choice}, '') = 'again') = (${t.againOn} is not null)`,
    ),
  ],
);

/**
 * What the owner writes beside a result: how a puppy behaves, from the reveal on; a veterinary answer, a correction, a
 * changed home under a record that is sealed. Append-only, and part of no score.
 */
export const addendum = sqliteTable(
  'addendum',
  {
    seq: integer('seq').primaryKey(),
    /** Made from the change's own id (SC2). */
    id: text('id').notNull().unique(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    kind: text('kind', { enum: ['behaviour', 'veterinary', 'correction', 'home'] }).notNull(),
    /** Null where a correction is about no one puppy. */
    puppyId: text('puppy_id').references(() => puppy.id, { onDelete: 'restrict' }),
    check: text('check'),
    choice: text('choice', { enum: ['cleared', 'again', 'stays'] }),
    againOn: text('again_on'),
    text: text('text').notNull(),
    /** Who says so, where it is not the owner. */
    by: text('by').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [
    index('addendum_evaluation').on(t.evaluationId),
    check(
      'addendum_kind',
      sql`${t.kind} in ('behaviour','veterinary','correction','home') and (${t.kind} = 'veterinary') = (${t.check} is not null) and (${t.check} is null) = (${t.choice} is null) and (${t.puppyId} is not null or ${t.kind} = 'correction')`,
    ),
    check(
      'addendum_choice',
      sql`ifnull(${t.choice}, 'stays') in ('cleared','again','stays') and (ifnull(${t.choice}, '') = 'again') = (${t.againOn} is not null)`,
    ),
  ],
);

/** Append-only; the newest row of a slot counts. A place may be left empty on purpose, and a decision taken back. */
export const decision = sqliteTable(
  'decision',
  {
    id: text('id').primaryKey(),
    seq: integer('seq').notNull(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    slotId: text('slot_id')
      .notNull()
      .references(() => slot.id, { onDelete: 'restrict' }),
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
    check(
      'decision_outcome',
      sql`${t.outcome} in ('picked','nobody','taken-back') and (${t.outcome} = 'picked') = (${t.puppyId} is not null)`,
    ),
  ],
);

/** Who asks to speak, since when, and under what it was asked, as a note. A row goes when the seat has spoken: it is no record. */
export const raisedHand = sqliteTable(
  'raised_hand',
  {
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id').references(() => device.id, { onDelete: 'restrict' }),
    roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
    lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.seatId] })],
);
