import { expect, it } from 'vitest';
import { cardsHash } from '#server/write/commitCards';
import { maskPromises } from '#tests/support/maskPromises';
import { promiseOf, lockCard } from '#tests/support/lockCard';
import { readEverything } from '#tests/support/readEverything';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

/* The owner issues a seat anew and opens the link herself: what her second browser can learn of the card that the first device made. */

const ownNonce = '5'.repeat(32);
const showing = async (client: TestClient, id: string) =>
  (await client.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';

type Card = {
  readonly roundId: string;
  readonly seatId: string;
  readonly subject: string;
  readonly criteria: readonly string[];
};

/** The mentor scores one puppy's first three criteria and says nothing else. */
async function scored({ id, owner, seats }: Quillmarsh, values: readonly number[]): Promise<Card> {
  const mentor = seats['mentor'];
  if (!mentor) throw new Error('no mentor');
  const view = await mentor.api.evaluation.get.query({ id });
  const criteria = view.sheet.criteria
    .filter((one) => !one.twoSided && !one.handsOnly)
    .slice(0, values.length)
    .map((one) => one.key);
  const subject = await showing(owner, id);
  const entries = criteria.map((criterion, at) => ({
    id: `${at}`.padStart(32, 'e'),
    subject,
    counter: 1,
    madeAt: 1,
    body: { kind: 'score', criterion, value: values[at] ?? null, cannotJudge: false } as const,
  }));
  expect((await mentor.api.card.submit.mutate({ id, entries })).map((one) => one.status)).toEqual(
    values.map(() => 'applied'),
  );
  return { roundId: view.round?.id ?? '', seatId: view.viewer.seatId ?? '', subject, criteria };
}

async function issuedAnew(server: TestServer, { id, owner }: Quillmarsh, seatId: string): Promise<TestClient> {
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId });
  const later = server.stranger();
  await later.api.session.join.mutate({ token });
  return later;
}

/** Every card these criteria could hold, tried against a hash under a nonce. */
function foundBy(nonce: string, hash: string, { roundId, seatId, subject, criteria }: Card): readonly number[] | null {
  for (let number = 0; number < 7 ** criteria.length; number += 1) {
    const values = criteria.map((_, at) => (Math.floor(number / 7 ** at) % 7) + 1);
    const answers = criteria.map((criterion, at) => ({
      subject,
      body: { kind: 'score', criterion, value: values[at] ?? null, cannotJudge: false } as const,
    }));
    if (cardsHash(nonce, { roundId, seatId, answers }) === hash) return values;
  }
  return null;
}

/** What has been published of a seat, anywhere: in the view and in the record. */
async function publishedOf({ id, owner }: Quillmarsh, seatId: string): Promise<readonly string[]> {
  const { commitments } = await owner.api.evaluation.get.query({ id });
  const lines = (await owner.api.record.list.query({ id }))
    .filter((line) => line.kind.startsWith('committed'))
    .map((line) => line.detail);
  const own = (commitments ?? []).filter((one) => one.seat === seatId).map((one) => one.hash);
  expect(own).toHaveLength(1);
  return [...new Set([...own, ...lines])];
}

/** How a second browser of hers comes to lock that seat, besides the plain way. */
const ways: Readonly<Record<string, (server: TestServer, quillmarsh: Quillmarsh, card: Card) => Promise<TestClient>>> =
  {
    'an empty card': (server, quillmarsh, { seatId }) => issuedAnew(server, quillmarsh, seatId),
    'a card locked before, after a reopening': async (server, quillmarsh, { seatId }) => {
      const { id, owner, seats } = quillmarsh;
      await lockCard(seats['mentor'], id);
      await lockCard(owner, id);
      await owner.api.evaluation.closeRound.mutate({ id });
      await owner.api.evaluation.reopenRound.mutate({ id });
      return issuedAnew(server, quillmarsh, seatId);
    },
    'a card of a further device that the new one let in': async (server, quillmarsh, { seatId }) => {
      const later = await issuedAnew(server, quillmarsh, seatId);
      const { code } = await later.api.session.furtherCode.mutate();
      const further = server.stranger();
      await further.api.session.joinByCode.mutate({ code });
      const [asking] = (await later.api.session.devices.query()).asking;
      await later.api.session.answerDevice.mutate({ requestId: asking?.id ?? '', letIn: true });
      return further;
    },
    'a card issued a third time': async (server, quillmarsh, { seatId }) => {
      await issuedAnew(server, quillmarsh, seatId);
      return issuedAnew(server, quillmarsh, seatId);
    },
  };

it.each(Object.keys(ways))(
  'BL9: brute force over what is published finds nothing under the nonce of a reissued device that locked %s',
  async (way) => {
    await using server = await startTestServer();
    const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    const { id, owner } = quillmarsh;
    await owner.api.evaluation.openRound.mutate({ id });
    const card = await scored(quillmarsh, [5, 2, 7]);
    const later = await ways[way]?.(server, quillmarsh, card);
    if (!later) throw new Error('no such way');
    expect((await later.api.card.mine.query({ id })).answers).toEqual([]);
    await later.api.card.lock.mutate({ id, ...(await promiseOf(later, id, ownNonce)) });
    await lockCard(owner, id);
    await owner.api.evaluation.closeRound.mutate({ id });
    const published = await publishedOf(quillmarsh, card.seatId);
    expect(published.map((hash) => foundBy(ownNonce, hash, card))).toEqual(published.map(() => null));
    // The search finds what it could: the same hash under the nonce that the reveal opens.
    await owner.api.evaluation.revealRound.mutate({ id });
    const opened = (await owner.api.board.commitments.query({ id })).find((one) => one.seat === card.seatId);
    expect(opened).toMatchObject({ by: 'server', locked: true });
    expect(foundBy(opened?.nonce ?? '', opened?.hash ?? '', card)).toEqual([5, 2, 7]);
  },
);

it('BL9: a card that its own device locked stays promised by that device when the seat is issued anew after, and the new one learns nothing of it', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const card = await scored(quillmarsh, [5, 2, 7]);
  await lockCard(seats['mentor'], id, '6'.repeat(32));
  const later = await issuedAnew(server, quillmarsh, card.seatId);
  await expect(later.api.card.lock.mutate({ id, ...(await promiseOf(later, id, ownNonce)) })).rejects.toThrow(
    'wrong-phase',
  );
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  expect(later.received.join('\n')).not.toContain('6'.repeat(32));
  const published = await publishedOf(quillmarsh, card.seatId);
  expect(published.map((hash) => foundBy(ownNonce, hash, card))).toEqual(published.map(() => null));
  await owner.api.evaluation.revealRound.mutate({ id });
  expect((await owner.api.board.commitments.query({ id })).find((one) => one.seat === card.seatId)).toMatchObject({
    by: 'device',
    nonce: '6'.repeat(32),
  });
});

/** Everything a reissued seat's new device receives, with a nonce of its own choice, where the first device scored so. */
async function world(values: readonly number[]): Promise<readonly string[]> {
  await using server = await startTestServer({ seed: 'reissued worlds' });
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const card = await scored(quillmarsh, values);
  const later = await issuedAnew(server, quillmarsh, card.seatId);
  const read: string[] = [];
  const look = async () => void read.push(...(await readEverything(later, { id, seq: 3 })));
  await look();
  const view = await later.api.evaluation.get.query({ id });
  const [from = '', to = ''] = view.round?.showings.map((one) => one.id) ?? [];
  await later.api.card.submit.mutate({
    id,
    entries: [
      {
        id: 'a'.repeat(32),
        subject: from,
        counter: 9,
        madeAt: 1,
        body: { kind: 'overall', value: 4, cannotJudge: false },
      },
    ],
  });
  await later.api.card.move.mutate({ id, from, to, moveId: 'b'.repeat(32) });
  await look();
  await later.api.card.lock.mutate({ id, ...(await promiseOf(later, id, ownNonce)) });
  await look();
  await lockCard(seats['photographer'], id);
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await look();
  return [...read, ...later.received.map((text) => text.replace(/\["date","[^"]*"\]/, '["date"]'))].map(maskPromises);
}

it('BL4: what a reissued seat’s new device receives is the same to the byte, whatever the first one scored, its own nonce and a moved card included', async () => {
  const one = await world([5, 2, 7]);
  expect(one.length).toBeGreaterThan(200);
  expect(await world([1, 6, 3])).toEqual(one);
});
