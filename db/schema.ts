import { sql } from 'drizzle-orm';
import { check, index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';

/**
 * Ids are 32 hex digits, times are milliseconds UTC, JSON is text. Every table is STRICT (added to the generated SQL by
 * db/generate.mjs). No cascade anywhere: nothing that holds scores goes because something else went (SC3).
 */
const flag = (name: string) => integer(name).notNull().default(0);

export const boot = sqliteTable('boot', { at: integer('at').notNull() });

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
    litterId: text('litter_id').notNull().references(() => litter.id, { onDelete: 'restrict' }),
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
    puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    weighedOn: text('weighed_on').notNull(),
    grams: integer('grams').notNull(),
  },
  (t) => [primaryKey({ columns: [t.puppyId, t.weighedOn] }), check('weight_grams', sql`${t.grams} between 20 and 60000`)],
);

/** `body` is a sheet as lib/sheet describes it. A built-in sheet is never changed, only copied. */
export const sheet = sqliteTable('sheet', {
  id: text('id').primaryKey(),
  builtIn: flag('built_in'),
  body: text('body').notNull(),
  createdAt: integer('created_at').notNull(),
});

export const evaluation = sqliteTable(
  'evaluation',
  {
    id: text('id').primaryKey(),
    litterId: text('litter_id').notNull().references(() => litter.id, { onDelete: 'restrict' }),
    sheetId: text('sheet_id').notNull().references(() => sheet.id, { onDelete: 'restrict' }),
    /** The sheet as it was when the first round opened; until then the live one counts. */
    frozenSheet: text('frozen_sheet'),
    name: text('name').notNull(),
    heldOn: text('held_on').notNull(),
    medium: text('medium', { enum: ['table', 'photographs'] }).notNull(),
    callLink: text('call_link').notNull(),
    callNumber: text('call_number').notNull(),
    tableNote: text('table_note').notNull(),
    phase: text('phase', { enum: ['preparing', 'scoring', 'deciding', 'sealed'] }).notNull(),
    /** Puppy ids as JSON, in the order they come to the table. */
    showingOrder: text('showing_order').notNull(),
    tableShowingId: text('table_showing_id'),
    createdAt: integer('created_at').notNull(),
    sealedAt: integer('sealed_at'),
  },
  (t) => [check('evaluation_phase', sql`${t.phase} in ('preparing','scoring','deciding','sealed')`)],
);

export const purpose = sqliteTable(
  'purpose',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    key: text('key', { enum: ['keep', 'working', 'companion'] }).notNull(),
    weights: text('weights').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.key] })],
);

export const seat = sqliteTable(
  'seat',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    position: integer('position').notNull(),
    label: text('label').notNull(),
    kind: text('kind', { enum: ['hands', 'live', 'photographs', 'none'] }).notNull(),
    leads: flag('leads'),
    picks: flag('picks'),
    /** May prepare the set-up and lead the table; never scores, never decides. */
    organises: flag('organises'),
    /** Reads what is revealed, without scoring. */
    reads: flag('reads'),
    interest: text('interest').notNull(),
    /** The owner's own seat: taken from her session, never by link. */
    owner: flag('owner'),
  },
  (t) => [
    uniqueIndex('seat_place').on(t.evaluationId, t.position),
    check('seat_kind', sql`${t.kind} in ('hands','live','photographs','none')`),
  ],
);

export const slot = sqliteTable(
  'slot',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
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

/**
 * What lets a device in, once: the owner's link, a seat's link, a seat's spoken code, or a code by which a further device
 * may ask its first (a null seat is the owner's). Only hashes of the secrets are kept.
 */
export const link = sqliteTable('link', {
  tokenHash: text('token_hash').primaryKey(),
  kind: text('kind', { enum: ['owner', 'seat', 'code', 'further'] }).notNull(),
  seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  usedAt: integer('used_at'),
  /** Null for a link, which lasts until it is used or replaced. */
  expiresAt: integer('expires_at'),
});

export const device = sqliteTable('device', {
  id: text('id').primaryKey(),
  tokenHash: text('token_hash').notNull().unique(),
  owner: flag('owner'),
  seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  revokedAt: integer('revoked_at'),
  /** 1 for the devices of the seat's first link and those they let in; one more with each reissue (BL9). */
  generation: integer('generation').notNull().default(1),
  cameBy: text('came_by', { enum: ['link', 'code', 'approval', 'passphrase', 'recovery'] }).notNull().default('link'),
  /** When it was last heard of, to the minute. */
  seenAt: integer('seen_at').notNull().default(0),
});

export const round = sqliteTable(
  'round',
  {
    id: text('id').primaryKey(),
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
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
    roundId: text('round_id').notNull().references(() => round.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    place: integer('place').notNull(),
    repeat: flag('repeat'),
  },
  (t) => [uniqueIndex('showing_place').on(t.roundId, t.place)],
);

export const withdrawal = sqliteTable(
  'withdrawal',
  {
    evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
    puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
    reason: text('reason').notNull(),
    at: integer('at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.evaluationId, t.puppyId] })],
);

export const seatRound = sqliteTable(
  'seat_round',
  {
    roundId: text('round_id').notNull().references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    lockedAt: integer('locked_at'),
  },
  (t) => [primaryKey({ columns: [t.roundId, t.seatId] })],
);

/** Every change a device made, for good: triggers refuse UPDATE and DELETE. */
export const entry = sqliteTable(
  'entry',
  {
    id: text('id').primaryKey(),
    roundId: text('round_id').notNull().references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    deviceId: text('device_id').notNull().references(() => device.id, { onDelete: 'restrict' }),
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
    roundId: text('round_id').notNull().references(() => round.id, { onDelete: 'restrict' }),
    seatId: text('seat_id').notNull().references(() => seat.id, { onDelete: 'restrict' }),
    subject: text('subject').notNull(),
    field: text('field').notNull(),
    counter: integer('counter').notNull(),
    deviceId: text('device_id').notNull().references(() => device.id, { onDelete: 'restrict' }),
    entryId: text('entry_id').notNull().references(() => entry.id, { onDelete: 'restrict' }),
    body: text('body').notNull(),
    value: integer('value'),
  },
  (t) => [
    primaryKey({ columns: [t.roundId, t.seatId, t.subject, t.field] }),
    check('answer_value', sql`${t.value} is null or ${t.value} between -3 and 11`),
  ],
);
