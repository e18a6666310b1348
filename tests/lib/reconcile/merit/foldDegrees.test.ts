import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degreeCost } from '#lib/reconcile/panel/degreeCost';
import { foldDegrees } from '#lib/reconcile/merit/foldDegrees';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import type { Panel } from '#lib/reconcile/panel/panel';
import { plainMeans } from '#lib/reconcile/panel/plainMean';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { questionOf } from '../examplePanel';

const named = (kind: string, count: number) => Array.from({ length: count }, (_, at) => `${kind}${at + 1}`);

/** Folded quality by [criterion][puppy][seat]. */
function folded(degrees: readonly (readonly (readonly number[])[])[]): number[][][] {
  const tables = degrees.map((table, criterion) => ({
    criterion: { key: `c${criterion}`, twoSided: true },
    cells: table.flatMap((row, puppy) => row.map((value, seat) => ({ puppy, seat, criterion, value }))),
  }));
  const [first = []] = degrees;
  const answer = foldDegrees(meritPriors)({ puppies: first.length, seats: first[0]?.length ?? 0, tables });
  return answer.map((cells, at) =>
    (degrees[at] ?? []).map((row, puppy) =>
      row.map((_, seat) => cells.find((cell) => cell.puppy === puppy && cell.seat === seat)?.value ?? NaN),
    ),
  );
}

describe('cost of a degree', () => {
  it('ST3: straight by default; costs 1, 3 and 6 by hand; the same on either side', () => {
    expect([-3, -1, 0, 0.5, 2, 3.5].map((degree) => degreeCost(degree))).toEqual([6, 2, 0, 1, 4, 7]);
    expect([-2, 0.5, 2.5, 3, 4].map((degree) => degreeCost(degree, [1, 3, 6]))).toEqual([3, 0.5, 4.5, 6, 9]);
  });

  it('ST3: the plain mean costs a degree as the sheet says', () => {
    const panel: Panel = {
      scale: { low: 1, high: 7 },
      puppies: ['a', 'b'],
      evaluators: ['x'],
      criteria: [{ key: 'neck', twoSided: true, cost: [1, 3, 6] }],
      scores: [
        { puppy: 'a', evaluator: 'x', criterion: 'neck', value: -1 },
        { puppy: 'b', evaluator: 'x', criterion: 'neck', value: 2 },
      ],
    };
    expect([...plainMeans(panel, { key: 'all', weights: { neck: 1 } }).values()]).toEqual([6, 4]);
    const gap = (cost: Panel['criteria'][number]['cost']) => {
      const criteria = cost ? [{ key: 'neck', twoSided: true, cost }] : [{ key: 'neck', twoSided: true }];
      return reconcile(questionOf({ ...panel, criteria })).purposes[0]?.merit[0]?.mean;
    };
    expect([gap([1, 3, 6]), gap(undefined)]).toEqual([1, 1]);
  });
});

describe('lean', () => {
  it("ST3: a seat that calls every puppy a step more than the others loses most of it, and nobody's order is moved by it", () => {
    const random = createSeededRandom(4);
    const truth = Array.from({ length: 6 }, () => Array.from({ length: 8 }, () => Math.round(random.normal())));
    const upright = truth.map((table) => table.map((d) => [d, d, d, d]));
    const leant = truth.map((table) => table.map((d) => [d, d, d, d + 1]));
    const [even, leaning] = [folded(upright), folded(leant)];
    // Whoever leans is told from the litter's level by the other three: the step is parted, so no exact zero is to be had.
    const moved = leaning.flatMap((table, c) =>
      table.map((row, p) => Math.abs((row[3] ?? NaN) - (even[c]?.[p]?.[3] ?? NaN))),
    );
    expect(Math.max(...moved)).toBeLessThan(0.7);
  });

  it('ST5: a fault that seats see on opposite sides costs every one of them', () => {
    const degrees = [
      [
        [2, -2, 2, -2],
        [0, 0, 0, 0],
        [0, 0, 0, 0],
        [-2, 2, -2, 2],
        [0, 0, 0, 0],
      ],
    ];
    for (const value of [0, 3].flatMap((puppy) => folded(degrees)[0]?.[puppy] ?? [])) expect(value).toBeCloseTo(-1, 5);
  });

  it('ST1: tables without cells, with one seat, and all alike are folded to numbers', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 1, max: 4 }),
        fc.constantFrom(-3, 0, 3),
        (seats, puppies, value) => {
          const quality = folded([
            Array.from({ length: puppies }, () => Array.from({ length: seats }, () => value)),
          ]).flat(2);
          expect(quality.every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
    expect(
      foldDegrees(meritPriors)({
        puppies: 2,
        seats: 0,
        tables: [{ criterion: { key: 'c', twoSided: true }, cells: [] }],
      }),
    ).toEqual([[]]);
  });
});

describe('opposite sides in a panel', () => {
  it('ST5: two halves of the panel on opposite sides of one puppy leave it behind the litter', () => {
    const [puppies, evaluators, criteria] = [
      named('p', 5),
      named('e', 4),
      named('c', 6).map((key) => ({ key, twoSided: true })),
    ];
    const scores = puppies.flatMap((puppy) =>
      evaluators.flatMap((evaluator, j) =>
        criteria.map(({ key }, c) => ({
          puppy,
          evaluator,
          criterion: key,
          value: puppy === 'p1' ? ((j + c) % 2) * 4 - 2 : ((j * 3 + c * 2) % 3) - 1,
        })),
      ),
    );
    const [result] = reconcile(
      questionOf({ scale: { low: 1, high: 7 }, puppies, evaluators, criteria, scores }),
    ).purposes;
    const last = result?.merit.at(-1);
    expect(last?.puppy).toBe('p1');
    expect(last?.ranks.at(-1)).toBeGreaterThan(0.9);
    expect(last?.estimate).toBeLessThan(0.5 * (last?.mean ?? NaN));
  });
});
