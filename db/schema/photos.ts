import { sql } from 'drizzle-orm';
import { check, index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { device } from './devices';
import { evaluation } from './evaluations';
import { puppy } from './litters';
import { lookBatch } from './looks';
import { round } from './rounds';
import { seat } from './seats';

/** A picture or clip; its files lie beside the data file under names that tell nothing. A picture is no score. */
export const photo = sqliteTable(
  'photo',
  {
    /** Made by the device before sending. */
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id')
      .notNull()
      .references(() => evaluation.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    view: text('view').notNull(),
    kind: text('kind', { enum: ['picture', 'clip'] }).notNull(),
    takenAt: integer('taken_at').notNull(),
    receivedAt: integer('received_at').notNull(),
    /** Null for an owner without a seat of her own. */
    seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
    width: integer('width').notNull(),
    height: integer('height').notNull(),
    /** SHA-256 of the bytes as received, hex: the same file sent again is the same picture. */
    hash: text('hash').notNull(),
    contentType: text('content_type').notNull(),
    file: text('file').notNull(),
    /** The small picture; null for a clip. */
    thumb: text('thumb'),
    /** A few pixels as a data address, to stand in until the picture is there; empty for a clip. */
    placeholder: text('placeholder').notNull(),
    fair: integer('fair').notNull().default(1),
    keeper: integer('keeper').notNull().default(0),
    removedAt: integer('removed_at'),
  },
  (t) => [index('photo_evaluation').on(t.evaluationId), check('photo_kind', sql`${t.kind} in ('picture','clip')`)],
);

/** A mark on a photograph, in shares of its width and height. Score data: others see it after reveal. Triggers refuse DELETE, and UPDATE but for the removal of a person's words. */
export const photoPointer = sqliteTable(
  'photo_pointer',
  {
    id: text('id').primaryKey(),
    photoId: text('photo_id')
      .notNull()
      .references(() => photo.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    /** The newest round when it was made; null before the first. */
    roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
    /** The batch of second looks that was open when it was made; null while none was. */
    lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
    kind: text('kind', { enum: ['arrow', 'ring', 'line'] }).notNull(),
    x: real('x').notNull(),
    y: real('y').notNull(),
    toX: real('to_x').notNull(),
    toY: real('to_y').notNull(),
    note: text('note').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [
    index('photo_pointer_photo').on(t.photoId),
    check('photo_pointer_kind', sql`${t.kind} in ('arrow','ring','line')`),
  ],
);

/** A mark its own seat took back; others go on seeing it until what was open then is revealed. */
export const pointerRemoval = sqliteTable('pointer_removal', {
  pointerId: text('pointer_id')
    .primaryKey()
    .references(() => photoPointer.id, { onDelete: 'restrict' }),
  roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
  lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
});

/** Landmarks of one ratio as one seat put them on one picture. Score data, as a mark is. Triggers refuse UPDATE and DELETE. */
export const photoMeasurement = sqliteTable(
  'photo_measurement',
  {
    id: text('id').primaryKey(),
    photoId: text('photo_id')
      .notNull()
      .references(() => photo.id, { onDelete: 'restrict' }),
    seatId: text('seat_id')
      .notNull()
      .references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id, { onDelete: 'restrict' }),
    roundId: text('round_id').references(() => round.id, { onDelete: 'restrict' }),
    lookBatchId: text('look_batch_id').references(() => lookBatch.id, { onDelete: 'restrict' }),
    ratio: text('ratio').notNull(),
    body: text('body').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [index('photo_measurement_photo').on(t.photoId)],
);
