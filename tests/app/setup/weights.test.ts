import { describe, expect, it } from 'vitest';
import { equalWeights, fitWeights, weightsWords } from '#app/setup/weights';
import { shortSheet } from '#lib/sheet/shippedSheets';

const sheet = { criteria: shortSheet.criteria.slice(0, 3) };
const weights = (...given: readonly number[]): Record<string, number> =>
  Object.fromEntries(sheet.criteria.map(({ key }, place) => [key, given[place] ?? 1]));

describe('weights', () => {
  it('fits weights to the sheet: what is there is kept, what is new counts once, what is gone goes', () => {
    expect(fitWeights({ [sheet.criteria[0]?.key ?? '']: 3, gone: 2 }, sheet)).toEqual(weights(3, 1, 1));
    expect(equalWeights(sheet)).toEqual(weights(1, 1, 1));
  });

  it('says in words how they differ', () => {
    expect(weightsWords(weights(1, 1, 1), sheet)).toBe('all criteria count alike');
    expect(weightsWords(weights(2, 2, 2), sheet)).toBe('all criteria count alike');
    expect(weightsWords(weights(0, 0, 0), sheet)).toBe('nothing counts yet');
    expect(weightsWords(weights(3, 0, 1), sheet)).toBe('1 criterion counts more, 1 does not count');
  });
});
