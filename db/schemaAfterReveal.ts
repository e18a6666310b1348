import { sql } from 'drizzle-orm';
import { check, index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import { device, evaluation, puppy, round, seat, slot } from './schema';

/** What stood when a round was revealed: written once, in the transaction that reveals. */
export const snapshot = sqliteTable('snapshot', {
  id: text('id').primaryKey(),
  roundId: text('round_id').notNull().unique().references(() => round.id, { onDelete: 'restrict' }),
  body: text('body').notNull(),
  revealedAt: integer('revealed_at').notNull(),
});

/** Computed from snapshots and closed looks only; `key` is the hash of what it was computed from. */
export const result = sqliteTable('result', {
  key: text('key').primaryKey(),
  body: text('body').notNull(),
  computedAt: integer('computed_at').notNull(),
});

/** One batch of second looks; its looks are fixed when it opens (BL8). */
export const lookBatch = sqliteTable(
  'look_batch',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    slotId: text('slot_id').notNull().references(() => slot.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    state: text('state', { enum: ['open', 'closed', 'revealed'] }).notNull(),
    medium: text('medium', { enum: ['table', 'photographs'] }).notNull().default('table'),
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
    batchId: text('batch_id').notNull().references(() => lookBatch.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    firstPuppyId: text('first_puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    secondPuppyId: text('second_puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
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
    lookId: text('look_id').notNull().references(() => look.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id').notNull().references(() => device.id, { onDelete: 'restrict' }),
    choice: text('choice', { enum: ['first', 'second', 'tie'] }).notNull(),
    criterion: text('criterion'),
    madeAt: integer('made_at').notNull(),
    receivedAt: integer('received_at').notNull(),
  },
  (t) => [index('look_answer_look').on(t.lookId, t.seatId), check('look_choice', sql`${t.choice} in ('first','second','tie')`)],
);

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

/** What happened, in order: each row's hash covers the row before. Triggers refuse UPDATE and DELETE. */
export const record = sqliteTable('record', {
  seq: integer('seq').primaryKey(),
  evaluationId: text('evaluation_id').references(() => evaluation.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
  actor: text('actor').notNull(),
  kind: text('kind').notNull(),
  body: text('body').notNull(),
  previousHash: text('previous_hash').notNull(),
  hash: text('hash').notNull(),
});

/** One counter per audience: a seat's own counter moves with its own entries only, so no number tells of another's (BL4). */
export const audienceVersion = sqliteTable(
  'audience_version',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    audience: text('audience').notNull(),
    version: integer('version').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.audience] })],
);
