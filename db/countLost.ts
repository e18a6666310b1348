import type Sqlite from 'better-sqlite3';

/** How much of one evaluation a file holds that another does not: numbers only, never what was answered. */
export type Lost = {
  readonly evaluationId: string;
  readonly evaluation: string;
  /** Entries on score cards, answers to second looks, and what else was noted, marked, measured or decided. */
  readonly entries: number;
  readonly looks: number;
  readonly others: number;
};

type Kind = 'entries' | 'looks' | 'others';
type Row = { readonly id: string; readonly evaluationId: string; readonly evaluation: string };

/** Where each kind lies, and by which way it belongs to an evaluation. */
const sources: readonly (readonly [Kind, string, string])[] = [
  [
    'entries',
    'entry',
    'JOIN round ON round.id = entry.round_id JOIN evaluation ON evaluation.id = round.evaluation_id',
  ],
  [
    'looks',
    'look_answer',
    'JOIN look ON look.id = look_answer.look_id JOIN look_batch ON look_batch.id = look.batch_id JOIN evaluation ON evaluation.id = look_batch.evaluation_id',
  ],
  ['others', 'discussion_note', 'JOIN evaluation ON evaluation.id = discussion_note.evaluation_id'],
  ['others', 'decision', 'JOIN evaluation ON evaluation.id = decision.evaluation_id'],
  [
    'others',
    'photo_pointer',
    'JOIN photo ON photo.id = photo_pointer.photo_id JOIN evaluation ON evaluation.id = photo.evaluation_id',
  ],
  [
    'others',
    'photo_measurement',
    'JOIN photo ON photo.id = photo_measurement.photo_id JOIN evaluation ON evaluation.id = photo.evaluation_id',
  ],
];

/** What `file` holds and `other` lacks, by evaluation; evaluations that lack nothing are not listed. A table that an earlier version did not have holds nothing. */
export function countLost(file: Sqlite.Database, other: Sqlite.Database): Lost[] {
  const found = new Map<string, Lost>();
  for (const [kind, table, joined] of sources) {
    if (!hasTable(file, table)) continue;
    const known = other.prepare<[string], number>(`SELECT 1 FROM ${table} WHERE id = ?`).pluck();
    const rows = file.prepare<[], Row>(
      `SELECT ${table}.id AS id, evaluation.id AS evaluationId, evaluation.name AS evaluation FROM ${table} ${joined}`,
    );
    for (const { id, evaluationId, evaluation } of rows.iterate()) {
      if (known.get(id) !== undefined) continue;
      const sum = found.get(evaluationId) ?? { evaluationId, evaluation, entries: 0, looks: 0, others: 0 };
      found.set(evaluationId, { ...sum, [kind]: sum[kind] + 1 });
    }
  }
  return [...found.values()];
}

function hasTable(client: Sqlite.Database, name: string): boolean {
  return (
    client
      .prepare<[string], number>("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?")
      .pluck()
      .get(name) !== undefined
  );
}
