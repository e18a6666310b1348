import { createHash } from 'node:crypto';
import { cardsHash } from '#server/write/commitCards';
import type { TestClient } from './testClient';

/** Locks a client's cards as a device does: promised over what it sees of them. */
export async function lockCard(client: TestClient | undefined, id: string, nonce?: string): Promise<void> {
  if (!client) throw new Error('nobody sits here');
  await client.api.card.lock.mutate({ id, ...(await promiseOf(client, id, nonce)) });
}

/** What a lock needs besides the evaluation. Unless one is given the nonce follows from the ids, so that two runs with the same ids are the same. */
export async function promiseOf(
  client: TestClient,
  id: string,
  nonce?: string,
): Promise<{ readonly nonce: string; readonly commitment: string }> {
  const { viewer } = await client.api.evaluation.get.query({ id });
  const { roundId, answers } = await client.api.card.mine.query({ id });
  const owner = { roundId: roundId ?? '', seatId: viewer.seatId ?? '' };
  const fresh =
    nonce ?? createHash('sha256').update(`nonce ${owner.roundId} ${owner.seatId}`).digest('hex').slice(0, 32);
  return { nonce: fresh, commitment: cardsHash(fresh, { ...owner, answers }) };
}
