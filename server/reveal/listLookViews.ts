import { findOwnLookAnswer } from '#db/queries/findOwnLookAnswer';
import { listLooks } from '#db/queries/listLooks';
import { listLookAnswers } from '#db/queries/unblinded/listLookAnswers';
import { lookView } from '#lib/blind/lookView';
import type { LookView } from '#lib/contract/lookView';
import { mayAnswerLook } from '#lib/evaluation/decideLook';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';

/** Every second look of an evaluation for one viewer; answers of others only of revealed batches. */
export function listLookViews({ db }: Runtime, facts: EvaluationFacts, viewer: Viewer): LookView[] {
  const revealed = listLookAnswers(db, facts.id);
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  return listLooks(db, facts.id).map((look) =>
    lookView(look, {
      mayAnswer: seat !== undefined && mayAnswerLook(facts, seat, look.slotId),
      own: (seat && findOwnLookAnswer(db, look.id, seat.id)) ?? null,
      answers: revealed.filter((answer) => answer.lookId === look.id).map(({ seatId, choice, criterion }) => ({ seat: seatId, choice, criterion })),
    }),
  );
}
