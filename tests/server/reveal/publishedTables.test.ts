import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { shortSheet } from '#lib/sheet/shippedSheets';
import type { Sheet } from '#lib/sheet/sheet';
import { lockCard } from '#tests/support/lockCard';
import { quillmarshPuppies } from '#tests/support/seedQuillmarsh';
import { scoreCard } from '#tests/support/scoreCards';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const { data } = JSON.parse(
  readFileSync(new URL('../../../fixtures/reference/icc-shrout-fleiss-1979.json', import.meta.url), 'utf8'),
) as {
  data: { values: number[][] };
};

/** An own sheet of one criterion on 1 to 10. */
function oneCriterion(): Sheet {
  const criterion = shortSheet.criteria.find((one) => !one.twoSided);
  if (!criterion) throw new Error('no one-sided criterion');
  return {
    name: 'One criterion',
    scale: { low: 1, high: 10 },
    criteria: [{ ...criterion, key: 'rating', handsOnly: false }],
    checks: [],
  };
}

/** Six puppies and four evaluators, all with hands on, scored with the published table's rows. */
async function enter(server: TestServer, table: readonly (readonly number[])[]) {
  const owner = await server.owner();
  const { id: sheetId } = await owner.api.sheet.save.mutate({ id: null, sheet: oneCriterion() });
  const litter = { name: 'Table', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' };
  const { id: litterId } = await owner.api.litter.save.mutate({ id: null, litter });
  const names = quillmarshPuppies.slice(0, table.length).map((puppy) => puppy.name);
  for (const puppy of quillmarshPuppies.slice(0, table.length))
    await owner.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  const input = {
    name: 'Published table',
    heldOn: '2026-09-12',
    medium: 'table',
    callLink: '',
    callNumber: '',
    tableNote: '',
  } as const;
  const { id } = await owner.api.setup.create.mutate({ litterId, sheetId, input });
  const clients: TestClient[] = [owner];
  for (const label of ['second', 'third', 'fourth']) {
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
  for (const [column, client] of clients.entries())
    await scoreCard(client, id, ({ puppy }) => table[names.indexOf(puppy as (typeof names)[number])]?.[column] ?? null);
  for (const client of clients.toReversed()) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  return { id, owner };
}

// Source: Shrout, P. E., & Fleiss, J. L. (1979). Intraclass correlations: uses in assessing rater reliability.
// Psychological Bulletin 86, 420–428, tables 2 and 4.
it('ST3: Shrout and Fleiss’ published table, entered through the API, shows the six published coefficients on the board', async () => {
  await using server = await startTestServer();
  const { id, owner } = await enter(server, data.values);
  const { byCriterion } = await owner.api.board.coefficients.query({ id });
  const rounded = Object.fromEntries(
    Object.entries(byCriterion['rating'] ?? {})
      .filter(([name]) => name.startsWith('icc.'))
      .map(([name, figure]) => [name, 'value' in figure ? figure.value.toFixed(2) : figure.undefined]),
  );
  expect(rounded).toEqual({
    'icc.1': '0.17',
    'icc.A,1': '0.29',
    'icc.C,1': '0.71',
    'icc.k': '0.44',
    'icc.A,k': '0.62',
    'icc.C,k': '0.91',
  });
});

it('ST1: a panel that gives every puppy the same score has an order without a claim and coefficients with a reason', async () => {
  await using server = await startTestServer();
  const { id, owner } = await enter(
    server,
    data.values.map((row) => row.map(() => 5)),
  );
  const { byCriterion } = await owner.api.board.coefficients.query({ id });
  expect(byCriterion['rating']?.['alpha.ordinal']).toHaveProperty('undefined');
  const board = await owner.api.board.get.query({ id });
  expect(board.slots[0]?.close).toBe(true);
  expect(board.criteria[0]).toMatchObject({ spread: 0, withinOne: 1, band: 'too-few' });
  expect(JSON.stringify(board)).not.toMatch(/NaN|null,null/);
});

it('ST2: whoever asks, and asked again, the board is the same', async () => {
  await using server = await startTestServer();
  const { id, owner } = await enter(server, data.values);
  const first = await owner.api.board.get.query({ id });
  server.runtime.db.$client.prepare('DELETE FROM result').run();
  expect(await owner.api.board.get.query({ id })).toEqual(first);
});
