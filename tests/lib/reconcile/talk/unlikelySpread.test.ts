import { describe, expect, it } from 'vitest';
import { flags, flagThresholds } from '#lib/reconcile/talk/flags';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { residualsOf, unlikelySpreads } from '#lib/reconcile/talk/unlikelySpread';
import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';

const table = (rows: readonly (readonly (number | null)[])[]) =>
  rows.flatMap((row, r) => row.flatMap((value, s) => (value === null ? [] : [{ row: `r${r}`, seat: `s${s}`, value }])));

describe('spread of the seats in a row', () => {
  it('ST3: worked example: what is left once rows and seats are off', () => {
    const left = residualsOf(
      table([
        [1, 1],
        [2, 2],
        [3, 3],
        [1, 4],
      ]),
    );
    [0.375, -0.375, 0.375, -0.375, 0.375, -0.375, -1.125, 1.125].forEach((value, at) =>
      expect(left[at]).toBeCloseTo(value, 9),
    );
  });

  it('ST3: a seat that is harder throughout parts nobody', () => {
    const rows =
      unlikelySpreads(
        [
          table([
            [4, 2, 4],
            [6, 4, 6],
            [5, 3, 5],
          ]),
        ],
        { variance: 0.5, degrees: 4 },
      )[0] ?? [];
    for (const { sd, chance } of rows) {
      expect(sd).toBeCloseTo(0, 6);
      expect(chance).toBeCloseTo(1, 6);
    }
  });

  it('ST1: tables too small to part rows from seats give nothing', () => {
    const prior = { variance: 0.5, degrees: 4 };
    expect(
      unlikelySpreads(
        [
          [],
          table([[1, 5]]),
          table([
            [1, null],
            [null, 2],
          ]),
        ],
        prior,
      ),
    ).toEqual([[], [], []]);
  });
});

describe('split flags in panels without a split', () => {
  const plain = scenarios.find(({ key }) => key === 'plain');
  it.each([2, 3, 5, 8, 12])('ST4: one cell in twenty is flagged, and one puppy in twenty, with %i seats', (seats) => {
    let [cells, flagged, puppies, split] = [0, 0, 0, 0];
    for (let litter = 0; litter < 60 && plain; litter += 1) {
      const [ordinary] = plain.evaluators;
      const scenario = {
        ...plain,
        twoSided: 6,
        evaluators: Array.from({ length: seats }, () => ordinary ?? expect.fail()),
      };
      const { panel } = simulateLitter(scenario, createSeededRandom(seedFromNumbers([410, seats, litter])));
      const raised = flags({ panel, result: { slots: [], evaluators: [] }, checks: [] });
      cells += panel.puppies.length * panel.criteria.length;
      puppies += panel.puppies.length;
      flagged += raised.filter(({ kind }) => kind === 'splitOnCriterion').length;
      split += raised.filter(({ kind }) => kind === 'splitOnPuppy').length;
    }
    expect(flagThresholds.splitChance).toBe(0.05);
    // 5,760 cells, whole scores: their steps part two seats by 0, 1 or 2 and nothing between.
    expect(flagged / cells).toBeGreaterThan(0.02);
    expect(flagged / cells).toBeLessThan(0.07);
    // 480 puppies: three standard errors are 0.03.
    expect(split / puppies).toBeLessThan(0.08);
  });
});
