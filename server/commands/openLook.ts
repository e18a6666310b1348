import { insertLookBatch } from '#db/queries/insertLookBatch';
import { listLooks } from '#db/queries/listLooks';
import { decideOpenLook, type LookQuestion } from '#lib/evaluation/decideLook';
import type { Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

type Opening = { readonly evaluationId: string; readonly viewer: Viewer; readonly question: LookQuestion };

/** Opens a live look as a batch of one pair, its sides fixed now (BL8): a repeat of the same pair swaps places. */
export function openLook(runtime: Runtime, { evaluationId, viewer, question }: Opening): string {
  const { db, random } = runtime;
  return writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const looks = listLooks(db, evaluationId);
    refuse(decideOpenLook(facts, viewer, { ...question, anotherOpen: looks.some((look) => look.state === 'open') }));
    const pair = [question.firstPuppyId, question.secondPuppyId];
    const earlier = looks.findLast((look) => pair.includes(look.firstPuppyId) && pair.includes(look.secondPuppyId));
    const id = random.id();
    insertLookBatch(db, {
      id: random.id(),
      evaluationId,
      slotId: question.slotId,
      openedAt: at,
      looks: [
        {
          id,
          firstPuppyId: earlier?.firstPuppyId ?? question.firstPuppyId,
          secondPuppyId: earlier?.secondPuppyId ?? question.secondPuppyId,
          firstOnLeft: earlier ? !earlier.firstOnLeft : true,
          repeat: earlier !== undefined,
        },
      ],
    });
    note(actorOf(facts, viewer), 'look-opened', pair.map((puppyId) => facts.puppies.find((one) => one.id === puppyId)?.name).join(' and '));
    touchAll();
    return id;
  });
}
