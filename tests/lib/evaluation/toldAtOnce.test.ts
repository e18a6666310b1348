import { expect, it } from 'vitest';
import { madeUnder, toldAtOnce } from '#lib/evaluation/toldAtOnce';
import { id, roundFacts } from '#tests/support/evaluationFacts';

const batch = id('6');

it.each([
  ['before the first round', null, null, false],
  ['while a round is open', 'open', null, false],
  ['while a round is closed', 'closed', null, false],
  ['while a batch of looks is open after the reveal', 'revealed', batch, false],
  ['while a round is open beside a batch of looks', 'open', batch, false],
  ['after the reveal, with no batch open', 'revealed', null, true],
] as const)('BL8: what a seat says beside its card is told at once: %s', (_case, state, openBatchId, told) => {
  expect(toldAtOnce({ round: state && roundFacts({ state }), openBatchId })).toBe(told);
});

it('BL8: what is held is kept under the newest round and the open batch', () => {
  expect(madeUnder({ round: null, openBatchId: null })).toEqual({ roundId: null, lookBatchId: null });
  expect(madeUnder({ round: roundFacts({}), openBatchId: null })).toEqual({ roundId: id('f'), lookBatchId: null });
  expect(madeUnder({ round: roundFacts({ state: 'revealed' }), openBatchId: batch })).toEqual({
    roundId: id('f'),
    lookBatchId: batch,
  });
});
