import { createHash } from 'node:crypto';
import { findOwnLookAnswer, listLooks } from '#db/queries/looks';
import { findResult, saveResult } from '#db/queries/results';
import { listLookAnswers } from '#db/queries/unblinded/answers';
import { lookView } from '#lib/blind/lookView';
import type { LookView } from '#lib/contract/lookView';
import { firstOnLeftFor, type LookMedium, mayAnswerLook, pairsProposed } from '#lib/evaluation/decideLook';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/seats';
import type { LookBatch, LooksAsk } from '#lib/reconcile/looks/chooseLooks';
import type { ShownLook } from '#lib/reconcile/looks/lookArrangement';
import { ENGINE_VERSION } from '#lib/reconcile/merit/reconcile';
import type { Undefined } from '#lib/reconcile/merit/reconciliation';
import type { Runtime } from '../runtime';
import { resultQuestion } from './results';

type Place = { readonly slotId: string; readonly medium: LookMedium };

/** The pairs worth looking at next for one place, from revealed scores and closed looks alone (BL8). Throws wrong-phase before reveal. */
export async function proposeLooks(
  runtime: Runtime,
  facts: EvaluationFacts,
  place: Place,
): Promise<LookBatch | Undefined> {
  const { db, clock, reconciler } = runtime;
  const { question, sources } = resultQuestion(runtime, facts);
  const ask = askFor(runtime, facts, place);
  const key = createHash('sha256')
    .update(JSON.stringify(['looks', ENGINE_VERSION, ...sources, ask]))
    .digest('hex');
  const stored = findResult(db, key);
  // Written by this very function: the JSON has its type.
  if (stored !== undefined) return JSON.parse(stored) as LookBatch | Undefined;
  const batch = await reconciler.looks(question, ask);
  saveResult(db, { key, body: JSON.stringify(batch), computedAt: clock.now() });
  return batch;
}

function askFor({ db }: Runtime, facts: EvaluationFacts, { slotId, medium }: Place): LooksAsk {
  const looks = listLooks(db, facts.id).filter((look) => look.state === 'revealed');
  return {
    slot: slotId,
    medium,
    seats: facts.seats
      .filter((seat) => seat.joined && mayAnswerLook(facts, seat, { slotId, medium }))
      .map((seat) => ({ evaluator: seat.id, except: [] })),
    shown: looks.flatMap((look): ShownLook[] => {
      const pair = { first: look.firstPuppyId, second: look.secondPuppyId };
      if (look.medium === 'table') return [{ ...pair, evaluator: null, firstOnLeft: look.firstOnLeft }];
      return facts.seats.map((seat) => ({
        ...pair,
        evaluator: seat.id,
        firstOnLeft: firstOnLeftFor(look, seat.position),
      }));
    }),
    most: pairsProposed,
  };
}

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
      own:
        (seat &&
          findOwnLookAnswer(db, {
            lookId: look.id,
            seatId: seat.id,
            deviceId: readsOnly(look.state, seat, deviceId),
          })) ??
        null,
      answers: revealed
        .filter((answer) => answer.lookId === look.id)
        .map(({ seatId, choice, criterion }) => ({ seat: seatId, choice, criterion })),
    }),
  );
}
