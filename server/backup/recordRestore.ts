import type { Comparison } from '#db/compareReveals';
import type { Lost } from '#db/countLost';
import type { Db } from '#db/open';
import { appendRecord } from '#db/queries/appendRecord';
import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { listEvaluations } from '#db/queries/listEvaluations';
import { raiseVersions } from '#db/queries/raiseVersions';
import { setRoundState } from '#db/queries/setRoundState';
import { stopLookBatches } from '#db/queries/stopLookBatches';
import type { RecordKind } from '#lib/proof/recordKinds';
import { publishCommitments } from '../commands/commitCards';
import { systemRandom } from '../random';

type Restore = { readonly backup: string; readonly comparison: Comparison; readonly at: number };

/** What the backup holds open and came back closed, in words. */
export type Closed = { readonly rounds: readonly string[]; readonly looks: readonly string[] };

const actor = 'whoever runs the server';

/**
 * Writes into the restored data that they were restored, in the record of every evaluation, with how many answers of the
 * replaced file are not in them. A round or batch of second looks stays open only where the replaced file is a later state
 * of the backup and holds it open too; any other comes back closed (BL7, BL8), since it may have been revealed.
 */
export function recordRestore(db: Db, { backup, comparison, at }: Restore): Closed {
  const evaluations = listEvaluations(db);
  const note = (evaluationId: string | null, kind: RecordKind, detail: string) => appendRecord(db, { evaluationId, at, actor, kind, detail });
  const restored = `from ${backup}, ${standing(comparison)}`;
  const lostOf = new Map(comparison.lost.map((lost) => [lost.evaluationId, lost]));
  if (evaluations.length === 0) note(null, 'restored', restored);
  const [rounds, looks]: [string[], string[]] = [[], []];
  for (const { id } of evaluations) {
    const lost = lostOf.get(id);
    note(id, 'restored', lost ? `${restored}; not in the backup: ${lostWords(lost)}` : restored);
    lostOf.delete(id);
    rounds.push(...closeOpenRound(db, { id, comparison, at }));
    looks.push(...stopOpenLooks(db, { id, comparison, at }));
  }
  for (const lost of lostOf.values()) note(null, 'restored', `an evaluation of the replaced file is not in the backup: ${lostWords(lost)}`);
  raiseVersions(db);
  return { rounds, looks };
}

/** Such as "3 entries and 1 answer to a second look". */
export function lostWords({ entries, looks, others }: Lost): string {
  const parts = [
    counted(entries, 'entry', 'entries'),
    counted(looks, 'answer to a second look', 'answers to second looks'),
    counted(others, 'note, mark or decision', 'notes, marks and decisions'),
  ].filter((part) => !part.startsWith('0 '));
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

const counted = (many: number, one: string, several: string) => `${many} ${many === 1 ? one : several}`;

type Held = { readonly id: string; readonly comparison: Comparison; readonly at: number };

function closeOpenRound(db: Db, { id: evaluationId, comparison, at }: Held): string[] {
  const facts = getEvaluationFacts(db, evaluationId);
  if (facts.round?.state !== 'open' || comparison.stillOpen.has(facts.round.id)) return [];
  setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
  const note = (by: string, kind: RecordKind, detail = '') => appendRecord(db, { evaluationId, at, actor: by, kind, detail });
  note(actor, 'round-closed', whyClosed(comparison));
  publishCommitments({ db, random: systemRandom }, facts, { at, note });
  return [`the ${facts.round.occasion} round of “${facts.name}”`];
}

function stopOpenLooks(db: Db, { id: evaluationId, comparison, at }: Held): string[] {
  const { name, slots } = getEvaluationFacts(db, evaluationId);
  return stopLookBatches(db, evaluationId, comparison.stillOpen).map((slotId) => {
    const place = slots.findIndex((slot) => slot.id === slotId) + 1;
    appendRecord(db, { evaluationId, at, actor, kind: 'look-stopped', detail: `place ${place}, ${whyClosed(comparison)}` });
    return `the second looks for place ${place} of “${name}”`;
  });
}

const whyClosed = ({ current }: Comparison) => (current === 'related' ? 'not open in the file that the backup replaces' : 'restored without the file it replaces');

function standing({ current, headSeq }: Comparison): string {
  switch (current) {
    case 'related':
      return `in place of a file whose record ended at line ${headSeq}`;
    case 'missing':
      return 'without the file it replaces: there was none';
    case 'unreadable':
      return 'without the file it replaces: it could not be read';
    case 'unrelated':
      return 'in place of a file that is no later state of it';
  }
}
