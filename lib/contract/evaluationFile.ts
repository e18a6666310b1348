import { z } from 'zod';
import { hashSchema, recordHeadSchema } from './commitment';
import { daySchema, idSchema } from './fields';
import { evaluationFileLimits } from './fileLimits';
import { shotSchema } from './photo';

/** Rises with any change of what a file holds; a file of another version is refused unread. */
export const evaluationFileVersion = 1;

/** The text inside a zip, beside a folder `pictures/`. */
export const evaluationFileName = 'evaluation.json';

const id = idSchema;
const number = z.int().min(Number.MIN_SAFE_INTEGER).max(Number.MAX_SAFE_INTEGER);
const flag = z.union([z.literal(0), z.literal(1)]);
const real = z.number();
const key = z.string().max(200);
const words = z.string().max(20_000);
/** JSON as its column holds it: hashes are made over these very signs. */
const json = z.string().max(10_000_000);
const own = { evaluation_id: id };
const made = { seat_id: id, device_id: id };
const under = { round_id: id.nullable(), look_batch_id: id.nullable() };

/**
 * The rows of a file by table, each with the columns of that table that leave the house, in the order in which they are put
 * in again. What is not named stays: secrets of devices, links, how to reach the call or the breeder, where files lie.
 */
export const evaluationRows = {
  litter: z.strictObject({
    id,
    name: words,
    breed: words,
    dam: words,
    sire: words,
    whelped_on: daySchema,
    created_at: number,
  }),
  puppy: z.strictObject({
    id,
    litter_id: id,
    position: number,
    name: words,
    sex: key,
    collar: key,
    second_mark: words,
    chip_digits: key,
  }),
  weight: z.strictObject({ puppy_id: id, weighed_on: daySchema, grams: number }),
  breed_figure: z.strictObject({
    litter_id: id,
    ratio: key,
    low: real,
    high: real,
    source: words,
    confirmed_at: number,
  }),
  evaluation: z.strictObject({
    id,
    litter_id: id,
    sheet_id: id,
    frozen_sheet: json,
    name: words,
    held_on: daySchema,
    medium: key,
    table_note: words,
    phase: z.enum(['deciding', 'sealed']),
    showing_order: json,
    created_at: number,
    sealed_at: number.nullable(),
  }),
  seat: z.strictObject({
    id,
    ...own,
    position: number,
    label: words,
    kind: key,
    leads: flag,
    picks: flag,
    organises: flag,
    reads: flag,
    interest: words,
    owner: flag,
    paper: flag,
  }),
  /** A null seat is the owner's; of hers nothing but the id leaves. */
  device: z.strictObject({
    id,
    seat_id: id.nullable(),
    created_at: number,
    revoked_at: number.nullable(),
    generation: number,
    came_by: key,
  }),
  removal: z.strictObject({ seat_id: id, at: number, done: z.literal(1) }),
  purpose: z.strictObject({ ...own, key, weights: json }),
  slot: z.strictObject({
    id,
    ...own,
    position: number,
    taker: words,
    seat_id: id.nullable(),
    purpose: key,
    sex: key,
    condition: words,
    by_when: words,
    if_fails: words,
  }),
  plan: z.strictObject({
    ...own,
    kind: key,
    learner_seat_id: id.nullable(),
    discussion: z.literal('roles'),
    silent_repeat: number,
    hours_since_meal: real.nullable(),
    look_batches: number,
    identity: key,
  }),
  shot_list: z.strictObject({ ...own, body: json }),
  confirmation: z.strictObject({ ...own, seat_id: id, wording: words, at: number }),
  withdrawal: z.strictObject({ ...own, puppy_id: id, reason: words, at: number }),
  round: z.strictObject({
    id,
    ...own,
    position: number,
    occasion: key,
    medium: key,
    state: z.literal('revealed'),
    opened_at: number,
    closed_at: number.nullable(),
    revealed_at: number,
    terms_nonce: id.nullable(),
  }),
  showing: z.strictObject({ id, round_id: id, puppy_id: id, place: number, repeat: flag }),
  seat_round: z.strictObject({ round_id: id, seat_id: id, locked_at: number.nullable() }),
  round_cell: z.strictObject({ round_id: id, puppy_id: id, criterion: key }),
  commitment: z.strictObject({
    id,
    round_id: id,
    seat_id: id,
    nonce: id,
    hash: hashSchema,
    made_by: key,
    made_at: number,
    voided_at: number.nullable(),
  }),
  entry: z.strictObject({
    id,
    round_id: id,
    ...made,
    subject: id,
    field: key,
    counter: number,
    body: json,
    value: number.nullable(),
    status: key,
    made_at: number,
    received_at: number,
  }),
  answer: z.strictObject({
    round_id: id,
    ...made,
    subject: id,
    field: key,
    counter: number,
    entry_id: id,
    body: json,
    value: number.nullable(),
  }),
  /** In the order in which they were typed: of one showing the newest counts. */
  paper_card: z.strictObject({ id, round_id: id, ...made, showing_id: id, answers: number, at: number }),
  snapshot: z.strictObject({ id, round_id: id, body: json, revealed_at: number }),
  look_batch: z.strictObject({
    id,
    ...own,
    slot_id: id,
    position: number,
    state: z.literal('revealed'),
    medium: key,
    opened_at: number,
    revealed_at: number,
  }),
  look: z.strictObject({
    id,
    batch_id: id,
    position: number,
    first_puppy_id: id,
    second_puppy_id: id,
    first_on_left: flag,
    repeat: flag,
  }),
  look_answer: z.strictObject({
    id,
    seq: number,
    look_id: id,
    ...made,
    choice: key,
    criterion: key.nullable(),
    made_at: number,
    received_at: number,
  }),
  discussion_note: z.strictObject({
    id,
    ...own,
    seat_id: id,
    device_id: id.nullable(),
    ...under,
    slot_id: id.nullable(),
    puppy_id: id.nullable(),
    other_puppy_id: id.nullable(),
    criterion: key.nullable(),
    text: words,
    at: number,
  }),
  clearance: z.strictObject({
    id: id.nullable(),
    ...own,
    puppy_id: id,
    check: key,
    answer: words,
    by: words,
    choice: key.nullable(),
    again_on: key.nullable(),
    at: number,
  }),
  addendum: z.strictObject({
    id,
    ...own,
    kind: key,
    puppy_id: id.nullable(),
    check: key.nullable(),
    choice: key.nullable(),
    again_on: key.nullable(),
    text: words,
    by: words,
    at: number,
  }),
  decision: z.strictObject({
    id,
    seq: number,
    ...own,
    slot_id: id,
    outcome: key,
    puppy_id: id.nullable(),
    by: words,
    reason: words,
    preference: flag,
    followed_panel: flag.nullable(),
    at: number,
  }),
  /** How many notes went to homes; nothing by which one could be read. */
  home_link: z.strictObject({ ...own, puppy_id: id, created_at: number }),
  photo: z.strictObject({
    id,
    ...own,
    puppy_id: id,
    view: shotSchema,
    kind: z.enum(['picture', 'clip']),
    taken_at: number,
    received_at: number,
    seat_id: id.nullable(),
    width: number,
    height: number,
    hash: hashSchema,
    content_type: z.enum(['image/webp', 'video/mp4', 'video/webm']),
    fair: flag,
    keeper: flag,
    removed_at: number.nullable(),
  }),
  photo_pointer: z.strictObject({
    id,
    photo_id: id,
    ...made,
    ...under,
    kind: key,
    x: real,
    y: real,
    to_x: real,
    to_y: real,
    note: words,
    at: number,
  }),
  pointer_removal: z.strictObject({ pointer_id: id, ...under, at: number }),
  photo_measurement: z.strictObject({ id, photo_id: id, ...made, ...under, ratio: key, body: json, at: number }),
  /** Those that somebody decided upon; all others are worked out again. */
  result: z.strictObject({ key: hashSchema, body: json, computed_at: number }),
} as const;

export type EvaluationTable = keyof typeof evaluationRows;
type RowsOf<T extends EvaluationTable> = z.ZodArray<(typeof evaluationRows)[T]>;

// Each table's rows as an array; Object.fromEntries forgets which name goes with which.
const tables = Object.fromEntries(
  Object.entries(evaluationRows).map(([name, row]) => [name, z.array(row)]),
) as unknown as { [T in EvaluationTable]: RowsOf<T> };

const lineSchema = z.strictObject({
  seq: z.int().min(1),
  at: number,
  actor: words,
  kind: key,
  body: words,
  previous_hash: z.union([hashSchema, z.literal('')]),
  hash: hashSchema,
});

const pictureSchema = z.strictObject({
  photo: id,
  name: z.string().regex(/^pictures\/[0-9a-f]{64}\.(webp|mp4|webm)$/),
  sha256: hashSchema,
  bytes: z.int().min(1).max(evaluationFileLimits.pictureBytes),
});

/** Only so far is a file read before its version is known. */
export const evaluationFileHeadSchema = z.object({ format: z.literal('evenstack evaluation'), version: z.int() });

/** One revealed evaluation whole: what the check of a data file needs, and its pictures by the hash of the bytes beside it. */
export const evaluationFileSchema = z.strictObject({
  format: z.literal('evenstack evaluation'),
  version: z.literal(evaluationFileVersion),
  /** The newest line of the record it was taken from, when it was, and how many lines of that record are here. */
  origin: z.strictObject({ at: number, head: recordHeadSchema, lines: z.int().min(1) }),
  lines: z.array(lineSchema),
  rows: z.strictObject(tables),
  pictures: z.array(pictureSchema).max(evaluationFileLimits.pictures),
});
export type EvaluationFile = z.infer<typeof evaluationFileSchema>;
export type EvaluationFileRows = EvaluationFile['rows'];
export type EvaluationFileLine = EvaluationFile['lines'][number];

/** What is told of an imported evaluation wherever it is shown. */
export const importedSchema = z.strictObject({ at: z.int(), writtenAt: z.int(), head: recordHeadSchema });
export type Imported = z.infer<typeof importedSchema>;
