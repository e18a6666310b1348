import type { Comparison } from '#db/compareReveals';
import type { Db } from '#db/open';
import { appendRecord } from '#db/queries/appendRecord';
import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { listEvaluations } from '#db/queries/listEvaluations';
import { raiseVersions } from '#db/queries/raiseVersions';
import { setRoundState } from '#db/queries/setRoundState';
import type { RecordKind } from '#lib/proof/recordKinds';
import { publishCommitments } from '../commands/commitCards';
import { systemRandom } from '../random';

type Restore = { readonly backup: string; readonly comparison: Comparison; readonly at: number };

const actor = 'whoever runs the server';

/**
 * Writes into the restored data that they were restored, in the record of every evaluation. Where the replaced file could
 * not be asked what had been revealed since, rounds that the backup holds open come back closed (BL7): to reopen one is
 * then a step of the owner's, on the record. Answers which those were, in words.
 */
export function recordRestore(db: Db, { backup, comparison, at }: Restore): string[] {
  const evaluations = listEvaluations(db);
  const detail = `from ${backup}, ${standing(comparison)}`;
  if (evaluations.length === 0) appendRecord(db, { evaluationId: null, at, actor, kind: 'restored', detail });
  const closed = evaluations.flatMap(({ id }) => {
    appendRecord(db, { evaluationId: id, at, actor, kind: 'restored', detail });
    return comparison.current === 'related' ? [] : closeOpenRound(db, id, at);
  });
  raiseVersions(db);
  return closed;
}

function closeOpenRound(db: Db, evaluationId: string, at: number): string[] {
  const facts = getEvaluationFacts(db, evaluationId);
  if (facts.round?.state !== 'open') return [];
  setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
  const note = (by: string, kind: RecordKind, detail = '') => appendRecord(db, { evaluationId, at, actor: by, kind, detail });
  note(actor, 'round-closed', 'restored without the file it replaces');
  publishCommitments({ db, random: systemRandom }, facts, { at, note });
  return [`the ${facts.round.occasion} round of “${facts.name}”`];
}

function standing(comparison: Comparison): string {
  switch (comparison.current) {
    case 'related':
      return `in place of a file whose record ended at line ${comparison.headSeq}`;
    case 'missing':
      return 'without the file it replaces: there was none';
    case 'unreadable':
      return 'without the file it replaces: it could not be read';
    case 'unrelated':
      return 'in place of a file that is no later state of it';
  }
}
