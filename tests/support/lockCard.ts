import { cardsHash } from '#server/cardsHash';
import { systemRandom } from '#server/random';
import type { TestClient } from './testClient';

/** Locks a client's cards as a device does: promised over what it sees of them. The nonce is kept by the caller. */
export async function lockCard(client: TestClient | undefined, id: string, nonce: string = systemRandom.id()): Promise<string> {
  if (!client) throw new Error('nobody sits here');
  await client.api.card.lock.mutate({ id, ...(await promiseOf(client, id, nonce)) });
  return nonce;
}

/** What a lock needs besides the evaluation. */
export async function promiseOf(client: TestClient, id: string, nonce: string): Promise<{ readonly nonce: string; readonly commitment: string }> {
  const { viewer } = await client.api.evaluation.get.query({ id });
  const { roundId, answers } = await client.api.card.mine.query({ id });
  return { nonce, commitment: cardsHash(nonce, { roundId: roundId ?? '', seatId: viewer.seatId ?? '', answers }) };
}
