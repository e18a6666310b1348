import { sql } from 'drizzle-orm';
import { check, index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

export const litter = sqliteTable('litter', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  breed: text('breed').notNull(),
  dam: text('dam').notNull(),
  sire: text('sire').notNull(),
  whelpedOn: text('whelped_on').notNull(),
  createdAt: integer('created_at').notNull(),
});

export const puppy = sqliteTable(
  'puppy',
  {
    id: text('id').primaryKey(),
    litterId: text('litter_id')
      .notNull()
      .references(() => litter.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    name: text('name').notNull(),
    sex: text('sex', { enum: ['dog', 'bitch'] }).notNull(),
    collar: text('collar').notNull(),
    secondMark: text('second_mark').notNull(),
    chipDigits: text('chip_digits').notNull(),
  },
  (t) => [index('puppy_litter').on(t.litterId), check('puppy_sex', sql`${t.sex} in ('dog','bitch')`)],
);

export const weight = sqliteTable(
  'weight',
  {
    puppyId: text('puppy_id')
      .notNull()
      .references(() => puppy.id, { onDelete: 'restrict' }),
    weighedOn: text('weighed_on').notNull(),
    grams: integer('grams').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.puppyId, t.weighedOn] }),
    check('weight_grams', sql`${t.grams} between 20 and 60000`),
  ],
);

/** The published figure the owner confirmed for her litter's breed, or put in its place. */
export const breedFigure = sqliteTable(
  'breed_figure',
  {
    litterId: text('litter_id')
      .notNull()
      .references(() => litter.id, { onDelete: 'restrict' }),
    ratio: text('ratio').notNull(),
    low: real('low').notNull(),
    high: real('high').notNull(),
    source: text('source').notNull(),
    confirmedAt: integer('confirmed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.litterId, t.ratio] }),
    check('breed_figure_order', sql`${t.low} > 0 and ${t.low} <= ${t.high}`),
  ],
);
