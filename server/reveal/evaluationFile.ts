import type { Db } from '#db/open';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { appendRecord, findRecordHead, listOwnLines } from '#db/queries/record';
import {
  type Arriving,
  insertEvaluationRows,
  listEvaluationRows,
  RowsClash,
} from '#db/queries/unblinded/evaluationRows';
import { listPhotos } from '#db/queries/photos';
import { importedHash } from '#db/queries/boundHashes';
import { type EvaluationFile, evaluationFileSchema, evaluationFileVersion } from '#lib/contract/evaluationFile';
import { DomainError } from '#lib/errors';
import { decideLeave } from '#lib/evaluation/rounds';
import { promisedState } from '#lib/proof/promisedState';
import { withBindings } from '#lib/proof/recordKinds';
import { invariant } from '#lib/invariant';

export { RowsClash };

/** A picture that goes along, and where it lies. */
export type LeavingPicture = { readonly photo: string; readonly file: string; readonly contentType: string };

export type Leaving = { readonly file: Omit<EvaluationFile, 'pictures'>; readonly pictures: readonly LeavingPicture[] };

/**
 * Everything of one evaluation that may be checked elsewhere, as it stands in one reading. Throws wrong-phase before the first reveal, still-open
 * while a round or a batch of second looks is open, anonymous, or not-bound where the record does not bind all of it.
 */
export function takeEvaluation(db: Db, evaluationId: string, at: number): Leaving {
  // One reading: nothing is written in between.
  return db.$client.transaction(() => {
    const facts = getEvaluationFacts(db, evaluationId);
    const verdict = decideLeave(facts);
    if (verdict) throw new DomainError(verdict);
    const lines = listOwnLines(db, evaluationId);
    const promised = promisedState(lines).evaluations.get(evaluationId);
    if (!promised?.boundFromStart) throw new DomainError('not-bound');
    const head = facts.imported?.head ?? findRecordHead(db);
    const file = evaluationFileSchema.parse({
      format: 'evenstack evaluation',
      version: evaluationFileVersion,
      // Of one that was imported, where it was made: the record it came with is the one it goes on with.
      origin: { at: facts.imported?.writtenAt ?? at, head, lines: lines.length },
      lines: lines.map(({ seq, at: when, actor, kind, detail, previousHash, hash }) => ({
        seq,
        at: when,
        actor,
        kind,
        body: detail,
        previous_hash: previousHash,
        hash,
      })),
      rows: listEvaluationRows(db, evaluationId, [...new Set(promised.results.map(({ question }) => question))]),
      pictures: [],
    });
    return {
      file,
      pictures: listPhotos(db, evaluationId).map(({ id, file: name, contentType }) => ({
        photo: id,
        file: name,
        contentType,
      })),
    };
  })();
}

/** Puts an evaluation from a file in, with the line that tells of it. Inside a transaction. Throws RowsClash, or SQLite's refusal of what no server would have written. */
export function putEvaluation(db: Db, arriving: Arriving): void {
  insertEvaluationRows(db, arriving);
  const { rows, mark, lines } = arriving;
  const evaluationId = rows.evaluation[0]?.id ?? '';
  const hash = importedHash(db, evaluationId);
  invariant(hash !== null, 'what was just put in is there');
  const detail = withBindings(
    `${lines.length} lines of another server’s record, whose newest was line ${mark.head.seq}, ${mark.head.hash}`,
    [['lines', hash]],
  );
  appendRecord(db, { evaluationId, at: mark.at, actor: 'owner', kind: 'imported', detail });
}
