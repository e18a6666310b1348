import { createHash } from 'node:crypto';
import { findResult } from '#db/queries/findResult';
import { listLooks } from '#db/queries/listLooks';
import { saveResult } from '#db/queries/saveResult';
import { firstOnLeftFor, mayAnswerLook, pairsProposed, type LookMedium } from '#lib/evaluation/decideLook';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { LookBatch, LooksAsk } from '#lib/reconcile/chooseLooks';
import type { ShownLook } from '#lib/reconcile/lookArrangement';
import { ENGINE_VERSION } from '#lib/reconcile/reconcile';
import type { Undefined } from '#lib/reconcile/reconciliation';
import type { Runtime } from '../runtime';
import { resultQuestion } from './resultQuestion';

type Place = { readonly slotId: string; readonly medium: LookMedium };

/** The pairs worth looking at next for one place, from revealed scores and closed looks alone (BL8). Throws wrong-phase before reveal. */
export async function proposeLooks(runtime: Runtime, facts: EvaluationFacts, place: Place): Promise<LookBatch | Undefined> {
  const { db, clock, reconciler } = runtime;
  const { question, sources } = resultQuestion(runtime, facts);
  const ask = askFor(runtime, facts, place);
  const key = createHash('sha256').update(JSON.stringify(['looks', ENGINE_VERSION, ...sources, ask])).digest('hex');
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
    seats: facts.seats.filter((seat) => seat.joined && mayAnswerLook(facts, seat, { slotId, medium })).map((seat) => ({ evaluator: seat.id, except: [] })),
    shown: looks.flatMap((look): ShownLook[] => {
      const pair = { first: look.firstPuppyId, second: look.secondPuppyId };
      if (look.medium === 'table') return [{ ...pair, evaluator: null, firstOnLeft: look.firstOnLeft }];
      return facts.seats.map((seat) => ({ ...pair, evaluator: seat.id, firstOnLeft: firstOnLeftFor(look, seat.position) }));
    }),
    most: pairsProposed,
  };
}
