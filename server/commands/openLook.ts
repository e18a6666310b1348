import { insertLookBatch } from '#db/queries/insertLookBatch';
import { listLooks, type LookRow } from '#db/queries/listLooks';
import { decideOpenLook, type LookPair, type LookQuestion } from '#lib/evaluation/decideLook';
import type { Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

type Opening = { readonly evaluationId: string; readonly viewer: Viewer; readonly question: LookQuestion };

/** Opens a batch of second looks: its pairs, their order and their sides are fixed now (BL8). */
export function openLook(runtime: Runtime, { evaluationId, viewer, question }: Opening): { readonly id: string; readonly lookIds: readonly string[] } {
  const { db, random } = runtime;
  return writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const earlier = listLooks(db, evaluationId);
    const batches = new Set(earlier.filter((look) => look.slotId === question.slotId).map((look) => look.batchId)).size;
    refuse(decideOpenLook(facts, viewer, { ...question, anotherOpen: earlier.some((look) => look.state !== 'revealed'), batches }));
    const id = random.id();
    const looks = question.pairs.map((pair, place) => ({ ...arranged(pair, place, earlier), id: random.id() }));
    insertLookBatch(db, { id, evaluationId, slotId: question.slotId, medium: question.medium, openedAt: at, looks });
    const name = (puppyId: string) => facts.puppies.find((one) => one.id === puppyId)?.name ?? '';
    note(actorOf(viewer), 'look-opened', question.pairs.map((pair) => `${name(pair.firstPuppyId)} and ${name(pair.secondPuppyId)}`).join('; '));
    touchAll();
    return { id, lookIds: looks.map((look) => look.id) };
  });
}

/** A pair seen before swaps places; new pairs take turns at having their first puppy on the left. */
function arranged({ firstPuppyId, secondPuppyId }: LookPair, place: number, looks: readonly LookRow[]): LookPair & { readonly firstOnLeft: boolean; readonly repeat: boolean } {
  const pair = [firstPuppyId, secondPuppyId];
  const before = looks.findLast((look) => pair.includes(look.firstPuppyId) && pair.includes(look.secondPuppyId));
  if (!before) return { firstPuppyId, secondPuppyId, firstOnLeft: place % 2 === 0, repeat: false };
  return { firstPuppyId: before.firstPuppyId, secondPuppyId: before.secondPuppyId, firstOnLeft: !before.firstOnLeft, repeat: true };
}
