import { insertPracticeCard } from '#db/queries/insertPracticeCard';
import type { PracticeAnswer } from '#lib/contract/practice';
import { DomainError } from '#lib/errors';
import { decidePractice } from '#lib/evaluation/decidePractice';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

type Practice = { readonly evaluationId: string; readonly seatId: string; readonly deviceId: string; readonly answers: readonly PracticeAnswer[] };

/** Locks a seat's practice, once: from here on it sees the practice of the others that have locked theirs. */
export function lockPractice(runtime: Runtime, { evaluationId, seatId, deviceId, answers }: Practice): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-allowed');
    refuse(decidePractice(facts, seat, answers));
    if (!insertPracticeCard(runtime.db, { evaluationId, seatId, deviceId, answers: JSON.stringify(answers), lockedAt: at })) throw new DomainError('wrong-phase');
    touchAll();
  });
}
