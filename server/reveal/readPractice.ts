import { listPracticeCards } from '#db/queries/unblinded/listPracticeCards';
import { practiceView } from '#lib/blind/practiceView';
import type { PracticeView } from '#lib/contract/practice';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';

/** Practice is revealed to each seat at its own lock. */
export function readPractice({ db }: Runtime, facts: EvaluationFacts, seat: SeatFacts): PracticeView {
  return practiceView(facts, seat, listPracticeCards(db, facts.id));
}
