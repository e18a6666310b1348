import { listPracticeCards } from '#db/queries/unblinded/listPracticeCards';
import { practiceView } from '#lib/blind/practiceView';
import type { PracticeView } from '#lib/contract/practice';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { markReader } from '#lib/evaluation/readsOnly';
import type { Runtime } from '../runtime';

/** Practice is revealed to each seat at its own lock; the new device of a reissued seat did not lock what an earlier one did. */
export function readPractice({ db }: Runtime, facts: EvaluationFacts, { seat, deviceId }: { readonly seat: SeatFacts; readonly deviceId: string }): PracticeView {
  return practiceView(facts, seat, listPracticeCards(db, facts.id, markReader(facts, { seatId: seat.id }, deviceId)));
}
