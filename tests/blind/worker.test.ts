import { expect, it } from 'vitest';
import { readEverything } from '#tests/support/readEverything';
import { bringTo } from '#tests/support/stages';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

/** Every question that goes to the statistics thread from here on, as it is sent. */
function listen({ runtime: { reconciler } }: TestServer): string[] {
  const heard: string[] = [];
  const { reconcile, agreement, profile, looks } = reconciler;
  const hear =
    <A extends readonly unknown[], B>(ask: (...given: A) => B) =>
    (...given: A): B => {
      heard.push(JSON.stringify(given));
      return ask(...given);
    };
  Object.assign(reconciler, {
    reconcile: hear(reconcile),
    agreement: hear(agreement),
    profile: hear(profile),
    looks: hear(looks),
  });
  return heard;
}

it('BL6: nothing goes to the statistics thread before the reveal, whatever anybody asks for; the first board after it does', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  const heard = listen(server);
  const { slots } = await owner.api.evaluation.get.query({ id });
  for (const client of [owner, ...Object.values(seats)])
    await readEverything(client, { id, slotId: slots[0]?.id, medium: 'table' });
  expect(heard).toEqual([]);
  await owner.api.evaluation.revealRound.mutate({ id });
  expect(heard).toEqual([]);
  await owner.api.board.get.query({ id });
  expect(heard.length).toBeGreaterThan(0);
});
