import { z } from 'zod';
import type { EvaluationFileLine, EvaluationFileRows, Imported } from '#lib/contract/evaluationFile';
import { evaluationRows, type EvaluationTable } from '#lib/contract/evaluationRows';
import type { Db } from '../../open';

const ofEvaluation = 'evaluation_id = @id';
const ofRounds = 'round_id IN (SELECT id FROM round WHERE evaluation_id = @id)';
const seats = 'SELECT id FROM seat WHERE evaluation_id = @id';
const ofPhotos = 'photo_id IN (SELECT id FROM photo WHERE evaluation_id = @id)';
const litterOf = '(SELECT litter_id FROM evaluation WHERE id = @id)';
const madeBy = ['entry', 'paper_card', 'look_answer', 'discussion_note', 'photo_pointer', 'photo_measurement']
  .map((table) => `SELECT device_id FROM ${table} WHERE seat_id IN (${seats})`)
  .join(' UNION ');

/** Which rows of each table belong to one evaluation. */
const belongs: Readonly<Record<Exclude<EvaluationTable, 'result'>, string>> = {
  litter: `id = ${litterOf}`,
  puppy: `litter_id = ${litterOf}`,
  weight: `puppy_id IN (SELECT id FROM puppy WHERE litter_id = ${litterOf})`,
  breed_figure: `litter_id = ${litterOf}`,
  evaluation: 'id = @id',
  seat: ofEvaluation,
  device: `seat_id IN (${seats}) OR (seat_id IS NULL AND id IN (${madeBy}))`,
  removal: `seat_id IN (${seats})`,
  purpose: ofEvaluation,
  slot: ofEvaluation,
  plan: ofEvaluation,
  shot_list: ofEvaluation,
  confirmation: ofEvaluation,
  withdrawal: ofEvaluation,
  round: ofEvaluation,
  showing: ofRounds,
  seat_round: ofRounds,
  round_cell: ofRounds,
  commitment: ofRounds,
  entry: ofRounds,
  answer: ofRounds,
  paper_card: ofRounds,
  snapshot: ofRounds,
  look_batch: ofEvaluation,
  look: `batch_id IN (SELECT id FROM look_batch WHERE ${ofEvaluation})`,
  look_answer: `look_id IN (SELECT l.id FROM look l JOIN look_batch b ON b.id = l.batch_id WHERE b.${ofEvaluation})`,
  discussion_note: ofEvaluation,
  clearance: ofEvaluation,
  addendum: ofEvaluation,
  decision: ofEvaluation,
  home_link: ofEvaluation,
  photo: ofEvaluation,
  photo_pointer: ofPhotos,
  pointer_removal: `pointer_id IN (SELECT id FROM photo_pointer WHERE ${ofPhotos})`,
  photo_measurement: ofPhotos,
};

const columnsOf = (table: EvaluationTable): readonly string[] => Object.keys(evaluationRows[table].shape);
const listed = (columns: readonly string[]): string => columns.map((name) => `"${name}"`).join(', ');
const isTable = (name: string): name is EvaluationTable => Object.hasOwn(evaluationRows, name);
/** In the order in which keys between them allow rows to be put in. */
const tables = Object.keys(evaluationRows).filter(isTable);

const cellSchema = z.union([z.string(), z.number(), z.null()]);
const rowSchema = z.record(z.string(), cellSchema);
type Row = z.infer<typeof rowSchema>;

/**
 * All rows of one evaluation, in the order in which they were written; of stored results those named. Score data: only for a
 * file of an evaluation in which nothing is left to reveal.
 */
export function listEvaluationRows(
  { $client }: Db,
  evaluationId: string,
  results: readonly string[],
): Readonly<Record<string, readonly unknown[]>> {
  const select = (table: EvaluationTable, where: string, id: unknown) =>
    $client
      .prepare<[unknown]>(`SELECT ${listed(columnsOf(table))} FROM "${table}" WHERE ${where} ORDER BY rowid`)
      .all(id);
  const rows: Record<string, readonly unknown[]> = {};
  for (const [table, where] of Object.entries(belongs))
    if (isTable(table)) rows[table] = select(table, where, { id: evaluationId });
  const kept = [...results].sort().flatMap((key) => select('result', 'key = @key', { key }));
  return { ...rows, device: z.array(rowSchema).parse(rows['device']).map(withoutOwner), result: kept };
}

/** The owner's devices serve other evaluations as well: when they came and went is not this one's. */
function withoutOwner(row: Row): Row {
  return row['seat_id'] === null ? { ...row, created_at: 0, revoked_at: 0, generation: 1, came_by: 'link' } : row;
}

/** What a file brings is here already, or something else is here under its ids. */
export class RowsClash extends Error {
  readonly table: EvaluationTable;

  constructor(table: EvaluationTable) {
    super(`rows of ${table} are here already`);
    this.name = 'RowsClash';
    this.table = table;
  }
}

/** May have come with another evaluation of the same litter; then they have to be the same, or (weights, figures) stay as they are here. */
const shared: ReadonlySet<EvaluationTable> = new Set(['litter', 'puppy', 'device']);
const keptAsHere: ReadonlySet<EvaluationTable> = new Set(['weight', 'breed_figure', 'result']);

export type Arriving = {
  readonly rows: EvaluationFileRows;
  readonly lines: readonly EvaluationFileLine[];
  readonly mark: Imported;
  /** Names of the files of each picture, by its id; those of one that is not there lead nowhere. */
  readonly files: ReadonlyMap<
    string,
    { readonly file: string; readonly thumb: string | null; readonly placeholder: string }
  >;
};

/** Puts the rows of a file in, with the mark that they were imported. Inside a transaction; throws RowsClash, or SQLite's own refusal. */
export function insertEvaluationRows(db: Db, { rows, lines, mark, files }: Arriving): void {
  const [evaluation] = rows.evaluation;
  if (!evaluation) throw new RowsClash('evaluation');
  const client = db.$client;
  // A frozen sheet counts; the one it was copied from may be another here, or none.
  client
    .prepare('INSERT INTO sheet (id, built_in, body, created_at) VALUES (?, 0, ?, ?) ON CONFLICT DO NOTHING')
    .run(evaluation.sheet_id, evaluation.frozen_sheet, mark.at);
  for (const table of tables) {
    for (const [at, row] of z.array(rowSchema).parse(rows[table]).entries())
      insertRow(db, table, { ...row, ...besides(table, row, { mark, files, at }) });
  }
  if (
    client
      .prepare<[string], number>('SELECT count(*) FROM puppy WHERE litter_id = ?')
      .pluck()
      .get(evaluation.litter_id) !== rows.puppy.length
  )
    throw new RowsClash('puppy');
  client
    .prepare('INSERT INTO imported (evaluation_id, at, written_at, head_seq, head_hash) VALUES (?, ?, ?, ?, ?)')
    .run(evaluation.id, mark.at, mark.writtenAt, mark.head.seq, mark.head.hash);
  const line = client.prepare(
    'INSERT INTO imported_line (evaluation_id, seq, at, actor, kind, body, previous_hash, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
  );
  for (const { seq, at, actor, kind, body, previous_hash, hash } of lines)
    line.run(evaluation.id, seq, at, actor, kind, body, previous_hash, hash);
}

/** Columns that no file brings. A device's token is the hash of no secret, so nobody comes in by it; a home's link leads nowhere. */
function besides(
  table: EvaluationTable,
  row: Row,
  { mark, files, at }: Pick<Arriving, 'mark' | 'files'> & { readonly at: number },
): Row {
  const id = String(row['id']);
  if (table === 'device') return { token_hash: `imported:${id}`, owner: 0, seen_at: 0 };
  if (table === 'evaluation') return { call_link: '', call_number: '' };
  if (table === 'home_link') return { token_hash: `imported:${String(row['evaluation_id'])}:${at}`, ended_at: mark.at };
  if (table !== 'photo') return {};
  const { file, thumb, placeholder } = files.get(id) ?? { file: `missing-${id}`, thumb: null, placeholder: '' };
  return { file, thumb, placeholder };
}

function insertRow({ $client }: Db, table: EvaluationTable, row: Row): void {
  const columns = Object.keys(row);
  const sharedRow = shared.has(table) && (table !== 'device' || row['seat_id'] === null);
  const lenient = sharedRow || keptAsHere.has(table) ? ' ON CONFLICT DO NOTHING' : '';
  const { changes } = $client
    .prepare(`INSERT INTO "${table}" (${listed(columns)}) VALUES (${columns.map(() => '?').join(', ')})${lenient}`)
    .run(...Object.values(row));
  if (changes > 0 || !sharedRow) return;
  const here = rowSchema
    .optional()
    .parse($client.prepare<[unknown]>(`SELECT ${listed(columns)} FROM "${table}" WHERE id = ?`).get(row['id']));
  if (!here || columns.some((name) => here[name] !== row[name])) throw new RowsClash(table);
}
