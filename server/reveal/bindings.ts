import { createHash } from 'node:crypto';
import type { Db } from '#db/open';
import { agreedHash, noteWordsHash, notesHash, reasonHashes } from '#db/queries/boundHashes';
import { findResult } from '#db/queries/results';
import { answersHash, lateHashes, scoresHash } from '#db/queries/unblinded/held';
import type { Snapshot } from '#lib/contract/snapshot';
import type { EvaluationFacts, RoundFacts } from '#lib/evaluation/facts';
import { withBindings, type Binding } from '#lib/proof/recordKinds';
import type { EvaluationWrite } from '../write/writeEvaluation';
import { resultKey, resultQuestion } from './results';

/** What the record says of a snapshot: its hash, and that of all in it that no removal of words changes. */
export function snapshotBinding(body: Snapshot): string {
  const text = JSON.stringify(body);
  return withBindings(createHash('sha256').update(text).digest('hex'), [['scores', scoresHash(text)]]);
}

export const answersBinding = (db: Db, batchId: string): readonly Binding[] => [['answers', answersHash(db, batchId)]];

type Late = Pick<EvaluationWrite, 'note'> & {
  readonly facts: Pick<EvaluationFacts, 'earlierRounds'>;
  readonly round: Pick<RoundFacts, 'id'>;
};

/**
 * A line for what has come late to a revealed round by now, where anything has. It names no seat: an anonymous panel tells
 * nobody who was late. Before the reveal there is no such line, for it would tell that another seat wrote (BL1).
 */
export function recordLate(db: Db, { facts, round, note }: Late): void {
  const { count, late, lateWords } = lateHashes(db, round.id);
  if (count === 0) return;
  const place = facts.earlierRounds.findIndex((one) => one.id === round.id);
  const words = `round ${(place < 0 ? facts.earlierRounds.length : place) + 1}: ${count} so far`;
  note(
    'the server',
    'came-late',
    withBindings(words, [
      ['late', late],
      ['lateWords', lateWords],
    ]),
  );
}

/** What the engine has said by now, where it was asked: the hash of the question and of the stored answer. */
export function resultBinding(db: Db, facts: EvaluationFacts): readonly Binding[] {
  const question = resultKey(resultQuestion({ db }, facts));
  const stored = findResult(db, question);
  return stored === undefined
    ? []
    : [
        ['question', question],
        ['result', createHash('sha256').update(stored).digest('hex')],
      ];
}

export const notesBinding = (db: Db, evaluationId: string): readonly Binding[] => [
  ['notes', notesHash(db, evaluationId)],
  ['noteWords', noteWordsHash(db, evaluationId)],
];

/** Everything that a removal of words may have changed, bound anew in the order of lib/proof/promisedState. */
export function wordsBinding(db: Db, facts: EvaluationFacts): readonly Binding[] {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  return [
    ...rounds.map((round): Binding => ['agreed', agreedHash(db, round.id)]),
    ...reasonHashes(db, facts.id).map((hash): Binding => ['reason', hash]),
    ...rounds
      .filter((round) => round.state === 'revealed')
      .map((round): Binding => ['lateWords', lateHashes(db, round.id).lateWords]),
    ...(facts.phase === 'sealed' ? [['noteWords', noteWordsHash(db, facts.id)] as const] : []),
  ];
}
