import { checkKeys } from '#lib/sheet/check';
import { lockCard } from './lockCard';
import { playToReveal, scoreCard, steadyCell } from './scoreCards';
import { seedQuillmarsh, type Quillmarsh } from './seedQuillmarsh';
import type { TestServer } from './startTestServer';

export const stages = ['preparing', 'open', 'closed', 'revealed', 'sealed'] as const;
export type Stage = (typeof stages)[number];

/** An evaluation brought to a stage through the API: everybody scored, nothing decided before `sealed`. */
export async function bringTo(server: TestServer, stage: Stage): Promise<Quillmarsh> {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner, seats } = quillmarsh;
  if (stage === 'preparing') return quillmarsh;
  if (stage === 'open' || stage === 'closed') {
    await owner.api.evaluation.openRound.mutate({ id });
    for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, steadyCell);
    if (stage === 'open') return quillmarsh;
    for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
    return quillmarsh;
  }
  await playToReveal(quillmarsh);
  if (stage === 'revealed') return quillmarsh;
  const board = await owner.api.board.get.query({ id });
  for (const slot of board.slots) {
    const [first] = slot.chances;
    if (!first) throw new Error('nobody may take this slot');
    await owner.api.decision.make.mutate({
      id,
      slotId: slot.slotId,
      puppyId: first.puppy,
      unexamined: [...checkKeys],
      reason: 'first of the panel',
      preference: false,
    });
  }
  await owner.api.decision.seal.mutate({ id });
  return quillmarsh;
}
