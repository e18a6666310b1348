import { expect, it } from 'vitest';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { shortSheet } from '#lib/sheet/shippedSheets';
import type { Sheet } from '#lib/sheet/sheet';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { lockCard } from '#tests/support/lockCard';
import { quillmarshPuppies } from '#tests/support/seedQuillmarsh';
import { scoreCard } from '#tests/support/scoreCards';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

/** A simulated litter with known truth: the mentor is a point and a half severe and misses four of nine puppies. */
function lateMentorLitter() {
  const scenario = scenarios.find(({ key }) => key === 'late');
  if (!scenario) throw new Error('the late mentor is one of the scenarios');
  return simulateLitter(scenario, createSeededRandom(29));
}

function sheetOf(keys: readonly string[]): Sheet {
  const model = shortSheet.criteria.find((one) => !one.twoSided);
  if (!model) throw new Error('no one-sided criterion');
  const criteria = keys.map((key) => ({ ...model, key, name: key, handsOnly: false }));
  return { name: 'Simulated', scale: { low: 1, high: 7 }, criteria, checks: [] };
}

it('ST3: with a severe mentor who missed four puppies the board’s order differs from the plain mean’s, is the true one, and says why', async () => {
  const { panel, merit } = lateMentorLitter();
  await using server = await startTestServer();
  const owner = await server.owner();
  const { id: sheetId } = await owner.api.sheet.save.mutate({
    id: null,
    sheet: sheetOf(panel.criteria.map(({ key }) => key)),
  });
  const { id: litterId } = await owner.api.litter.save.mutate({
    id: null,
    litter: { name: 'Simulated', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' },
  });
  const nameOf = new Map(panel.puppies.map((puppy, at) => [puppy, quillmarshPuppies[at]?.name ?? '']));
  for (const puppy of quillmarshPuppies)
    await owner.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  const { id } = await owner.api.setup.create.mutate({
    litterId,
    sheetId,
    input: { name: 'Late mentor', heldOn: '2026-09-12', medium: 'table', callLink: '', callNumber: '', tableNote: '' },
  });
  const clients: TestClient[] = [];
  for (const label of ['mentor', 'photographer', 'co-owner']) {
    const { id: seatId } = await owner.api.setup.saveSeat.mutate({
      id,
      seatId: null,
      seat: { label, kind: 'hands', leads: false, picks: false, interest: '' },
    });
    const client = server.stranger();
    await client.api.session.join.mutate({ token: (await owner.api.setup.invite.mutate({ id, seatId })).token });
    clients.push(client);
  }
  await owner.api.evaluation.openRound.mutate({ id });
  for (const [at, client] of [...clients, owner].entries()) {
    const cells = new Map(
      panel.scores
        .filter(({ evaluator }) => evaluator === `evaluator${at + 1}`)
        .map((score) => [`${nameOf.get(score.puppy)} ${score.criterion}`, score.value]),
    );
    await scoreCard(client, id, ({ puppy, criterion }) => cells.get(`${puppy} ${criterion}`) ?? null);
  }
  for (const client of [...clients, owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });

  const board = await owner.api.board.get.query({ id });
  const names = new Map((await owner.api.evaluation.get.query({ id })).puppies.map((puppy) => [puppy.id, puppy.name]));
  const [purpose] = board.purposes;
  const byMerit = purpose?.merit.map((one) => names.get(one.puppy));
  const byMean = purpose?.merit
    .toSorted((one, other) => (other.mean ?? -9) - (one.mean ?? -9))
    .map((one) => names.get(one.puppy));
  const best = [...merit].toSorted((one, other) => other[1] - one[1])[0]?.[0] ?? '';
  expect(byMerit?.[0]).toBe(nameOf.get(best));
  expect(byMean?.[0]).not.toBe(nameOf.get(best));
  expect(purpose?.meanSentence).toMatch(
    new RegExp(
      `The plain mean puts ${byMean?.[0]} above ${byMerit?.[0]}.*because the mentor, who scores about .* below the panel’s level, scored ${byMerit?.[0]} and not ${byMean?.[0]}`,
    ),
  );
  expect(board.evaluators.some((one) => one.sentence.includes('below'))).toBe(true);
  // Nine puppies are enough for a profile with intervals; no puppy was shown twice, so nothing is said of self-consistency.
  for (const { profile } of board.evaluators) {
    expect(
      [profile.scaleUse, profile.agreement, profile.drift].every(
        (figure) => 'low' in figure && figure.low <= figure.value,
      ),
    ).toBe(true);
    expect(profile.selfConsistency).toEqual({ undefined: 'too few data' });
  }
});
