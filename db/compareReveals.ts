import { existsSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { checkFile } from './checkFile';
import { countLost, type Lost } from './countLost';
import type { Db } from './open';

/**
 * Something revealed in the file in use that a backup still holds open or closed, or does not know; or the owner's own card of a
 * round (`ownCard`), which the backup does not hold locked though she has typed cards from paper since.
 */
export type LackingReveal = {
  readonly evaluation: string;
  readonly what: 'round' | 'look' | 'ownCard';
  readonly position: number;
};

export type Comparison = {
  /** `related`: the file in use is the backup's own later state, and so knows all that happened after it. */
  readonly current: 'missing' | 'unreadable' | 'unrelated' | 'related';
  /** Where the record of the file in use ends; 0 when it cannot be asked. */
  readonly headSeq: number;
  readonly lacking: readonly LackingReveal[];
  /** Ids of the rounds and batches that may come back open (BL7, BL8): a later state of the backup holds them open still. */
  readonly stillOpen: ReadonlySet<string>;
  /** What was answered in the file in use and is not in the backup. */
  readonly lost: readonly Lost[];
};

type Revealed = LackingReveal & { readonly id: string };
type Head = { readonly seq: number; readonly hash: string };

const cannotBeAsked = { headSeq: 0, lacking: [], stillOpen: new Set<string>(), lost: [] };

/** What the file in use knows that a backup does not: what was revealed or closed since (BL7, BL8), and what was answered. */
export function compareReveals(file: string, backup: Db): Comparison {
  if (!existsSync(file)) return { current: 'missing', ...cannotBeAsked };
  try {
    checkFile(file, 'quick');
  } catch {
    // Damaged, cut short, or no data file at all: whatever it is, it cannot be asked.
    return { current: 'unreadable', ...cannotBeAsked };
  }
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const related = continues(client, backup.$client);
    return {
      current: related ? 'related' : 'unrelated',
      headSeq: headOf(client)?.seq ?? 0,
      lacking: [
        ...revealedIn(client).filter(({ id, what }) => !isRevealed(backup, id, what)),
        ...typedFromPaperIn(client).filter(({ id }) => ownCardIsOpen(backup, id)),
      ],
      stillOpen: new Set(related ? openIn(client) : []),
      lost: countLost(client, backup.$client),
    };
  } finally {
    client.close();
  }
}

function revealedIn(client: Sqlite.Database): Revealed[] {
  return client
    .prepare<[], Revealed>(
      `SELECT round.id AS id, evaluation.name AS evaluation, 'round' AS what, round.position AS position
       FROM round JOIN evaluation ON evaluation.id = round.evaluation_id WHERE round.state = 'revealed'
       UNION ALL
       SELECT look_batch.id, evaluation.name, 'look', look_batch.position
       FROM look_batch JOIN evaluation ON evaluation.id = look_batch.evaluation_id WHERE look_batch.state = 'revealed'`,
    )
    .all();
}

/** Rounds in which the owner has seen a card on paper (BL1). A file of an earlier version knows no paper. */
function typedFromPaperIn(client: Sqlite.Database): Revealed[] {
  const known = client.prepare("SELECT 1 FROM sqlite_master WHERE name = 'paper_card'").get() !== undefined;
  if (!known) return [];
  return client
    .prepare<[], Revealed>(
      `SELECT round.id AS id, evaluation.name AS evaluation, 'ownCard' AS what, round.position AS position
       FROM round JOIN evaluation ON evaluation.id = round.evaluation_id
       WHERE round.id IN (SELECT round_id FROM paper_card)`,
    )
    .all();
}

/** Whether a backup holds this round unrevealed and a scoring owner's card in it not locked. */
function ownCardIsOpen(backup: Db, roundId: string): boolean {
  const found = backup.$client
    .prepare<[string], number>(
      `SELECT 1 FROM round JOIN seat ON seat.evaluation_id = round.evaluation_id
       LEFT JOIN seat_round ON seat_round.round_id = round.id AND seat_round.seat_id = seat.id
       WHERE round.id = ? AND round.state <> 'revealed' AND seat.owner = 1 AND seat.kind <> 'none'
       AND seat_round.locked_at IS NULL`,
    )
    .get(roundId);
  return found !== undefined;
}

function openIn(client: Sqlite.Database): string[] {
  return client
    .prepare<[], string>(
      "SELECT id FROM round WHERE state = 'open' UNION ALL SELECT id FROM look_batch WHERE state = 'open'",
    )
    .pluck()
    .all();
}

function isRevealed(backup: Db, id: string, what: LackingReveal['what']): boolean {
  const table = what === 'round' ? 'round' : 'look_batch';
  return (
    backup.$client.prepare<[string], string>(`SELECT state FROM ${table} WHERE id = ?`).pluck().get(id) === 'revealed'
  );
}

/**
 * Whether the record of the file in use begins with the whole record of the backup. The other way round is not enough: an
 * earlier state put in place by hand knows nothing of what came after the backup. An empty record begins none but an empty one.
 */
function continues(client: Sqlite.Database, backup: Sqlite.Database): boolean {
  const head = headOf(backup);
  if (!head) return headOf(client) === null;
  return client.prepare<[number], string>('SELECT hash FROM record WHERE seq = ?').pluck().get(head.seq) === head.hash;
}

function headOf(client: Sqlite.Database): Head | null {
  return client.prepare<[], Head>('SELECT seq, hash FROM record ORDER BY seq DESC LIMIT 1').get() ?? null;
}
