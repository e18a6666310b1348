import { findOwnLookAnswer } from '#db/queries/findOwnLookAnswer';
import { listLooks } from '#db/queries/listLooks';
import { listLookAnswers } from '#db/queries/unblinded/listLookAnswers';
import { lookView } from '#lib/blind/lookView';
import type { LookView } from '#lib/contract/lookView';
import { mayAnswerLook } from '#lib/evaluation/decideLook';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/readsOnly';
import type { Runtime } from '../runtime';

type Reader = { readonly viewer: Viewer; readonly deviceId: string };

/** Every second look of an evaluation for one viewer; answers of others only of revealed batches. */
export function listLookViews({ db }: Runtime, facts: EvaluationFacts, { viewer, deviceId }: Reader): LookView[] {
  const revealed = listLookAnswers(db, facts.id);
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  return listLooks(db, facts.id).map((look) =>
    lookView(look, {
      position: seat?.position ?? 0,
      anonymous: facts.plan.discussion === 'anonymous',
      mayAnswer: seat !== undefined && mayAnswerLook(facts, seat, look),
      own: (seat && findOwnLookAnswer(db, { lookId: look.id, seatId: seat.id, deviceId: readsOnly(look.state, seat, deviceId) })) ?? null,
      answers: revealed.filter((answer) => answer.lookId === look.id).map(({ seatId, choice, criterion }) => ({ seat: seatId, choice, criterion })),
    }),
  );
}
