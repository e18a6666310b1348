import type { PracticeAnswer, PracticeView } from '../contract/practice';
import type { EvaluationFacts, SeatFacts } from '../evaluation/facts';
import { practiceCriteria } from '../sheet/practiceCriteria';

/** `own`: of the reader's seat, by a device that it may read (BL9). */
export type PracticeCard = { readonly seatId: string; readonly own: boolean; readonly answers: readonly PracticeAnswer[] };

/** Practice as one seat sees it: nothing of the others before its own lock, which is for good. */
export function practiceView(facts: EvaluationFacts, seat: SeatFacts, cards: readonly PracticeCard[]): PracticeView {
  const own = cards.find((card) => card.own);
  const locked = cards.some((card) => card.seatId === seat.id);
  const anonymous = facts.plan.discussion === 'anonymous';
  const others = cards.filter((card) => card.seatId !== seat.id).map((card) => ({ seat: anonymous ? null : card.seatId, answers: sorted(card.answers) }));
  return {
    criteria: practiceCriteria(facts.sheet).map(({ key }) => key),
    open: facts.phase === 'preparing' && !locked && seat.kind !== 'none',
    own: own ? sorted(own.answers) : null,
    others: own ? others.toSorted((one, other) => orderKey(one).localeCompare(orderKey(other))) : null,
  };
}

const sorted = (answers: readonly PracticeAnswer[]): PracticeAnswer[] =>
  answers.map(({ picture, criterion, value }) => ({ picture, criterion, value })).toSorted((a, b) => `${a.picture} ${a.criterion}`.localeCompare(`${b.picture} ${b.criterion}`));

const orderKey = (card: { readonly seat: string | null; readonly answers: readonly PracticeAnswer[] }): string => card.seat ?? JSON.stringify(card.answers);
