import { describe, expect, it } from 'vitest';
import { absoluteAgreement } from '#lib/stats/absoluteAgreement';
import { additiveFit } from '#lib/stats/additiveFit';
import { intraclassCorrelations } from '#lib/stats/intraclassCorrelation';
import { fullSize } from '#tests/support/faultSize';
import { createSeededRandom } from '#lib/stats/seededRandom';

const ROUNDS = fullSize ? 600 : 60;
const shroutFleiss = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

describe('additive fit', () => {
  it('ST3: of a complete table the sums of squares of the analysis of variance', () => {
    const fit = additiveFit(shroutFleiss);
    // Shrout & Fleiss 1979, table 2: mean squares 11.24 on 5, 32.49 on 3 and 1.02 on 15 degrees of freedom.
    expect((fit?.units.squares ?? NaN) / 5).toBeCloseTo(11.2417, 3);
    expect((fit?.raters.squares ?? NaN) / 3).toBeCloseTo(32.4861, 3);
    expect((fit?.error.squares ?? NaN) / 15).toBeCloseTo(1.0194, 3);
    expect([fit?.units.each, fit?.raters.each, fit?.error.degrees]).toEqual([4, 6, 15]);
  });

  it('ST1: a table in parts, or without a degree of freedom to spare, has no fit', () => {
    expect(
      additiveFit([
        [1, 2, null, null],
        [2, 1, null, null],
        [null, null, 3, 4],
        [null, null, 4, 3],
      ]),
    ).toBeNull();
    expect(
      additiveFit([
        [1, 2],
        [3, null],
      ]),
    ).toBeNull();
  });

  it('ST3: an exactly additive table with gaps leaves no error and its own effects', () => {
    const fit = additiveFit([
      [1, 3, null],
      [2, null, 5],
      [4, 6, 7],
      [null, 8, 9],
    ]);
    expect(fit?.error.squares).toBeCloseTo(0, 9);
    expect((fit?.raters.squares ?? NaN) / (fit?.raters.each ?? NaN)).toBeCloseTo(
      (2 * ((-5 / 3) ** 2 + (1 / 3) ** 2 + (4 / 3) ** 2)) / 2,
      9,
    );
  });
});

/** One table of the two-way random model about the middle of 1 to 7, total variance 1. */
function drawn(
  random: ReturnType<typeof createSeededRandom>,
  ask: {
    readonly units: number;
    readonly raters: number;
    readonly icc: number;
    readonly gaps: number;
    readonly rounded: boolean;
  },
) {
  const [unit, rater, error] = [ask.icc, 0.35 * (1 - ask.icc), 0.65 * (1 - ask.icc)].map(Math.sqrt);
  const levels = Array.from({ length: ask.raters }, () => (rater ?? 0) * random.normal());
  return Array.from({ length: ask.units }, () => {
    const own = 4.3 + (unit ?? 0) * random.normal();
    return levels.map((level) => {
      const score = own + level + (error ?? 0) * random.normal();
      if (random.uniform() < ask.gaps) return null;
      return ask.rounded ? Math.max(1, Math.min(7, Math.round(score))) : score;
    });
  });
}

describe('absolute agreement', () => {
  it('ST3: worked example, and the middle lies by the point', () => {
    const found = absoluteAgreement(shroutFleiss);
    const point = intraclassCorrelations(shroutFleiss)['A,1'];
    if ('undefined' in found || 'undefined' in point) expect.fail();
    expect(found.low).toBeCloseTo(0.03, 1);
    expect(found.high).toBeCloseTo(0.72, 1);
    expect(Math.abs(found.value - point.value)).toBeLessThan(0.1);
  });

  it('ST2: the order of rows and columns changes nothing', () => {
    const turned = [...shroutFleiss].reverse().map((row) => [...row].reverse());
    expect(absoluteAgreement(turned)).toEqual(absoluteAgreement(shroutFleiss));
  });

  it('ST1: reasons instead of figures, and a figure for seats of one mind', () => {
    expect(absoluteAgreement([])).toEqual({ undefined: 'no scores' });
    expect(absoluteAgreement([[1], [2], [3], [4], [5]])).toEqual({ undefined: 'one rater' });
    expect(
      absoluteAgreement([
        [1, 2],
        [2, 3],
        [3, 4],
        [4, 4],
      ]),
    ).toEqual({ undefined: 'too few observations' });
    expect(absoluteAgreement(Array.from({ length: 6 }, () => [4, 4, 4]))).toEqual({ undefined: 'no variation' });
    expect(absoluteAgreement([1, 2, 3, 4, 5].map((score) => [score, score, score]))).toEqual({
      value: 1,
      low: 1,
      high: 1,
    });
  });

  // The ICC of rounded scores is a little below that of the scores before: 0.09, 0.365 and 0.74 for 0.1, 0.4 and 0.8, by 20,000 simulated pairs.
  it.each([
    { units: 5, raters: 3, gaps: 0, rounded: false },
    { units: 12, raters: 6, gaps: 0, rounded: false },
    { units: 8, raters: 4, gaps: 0, rounded: true },
    { units: 8, raters: 4, gaps: 0.2, rounded: true },
  ])('ST4: the 95% interval holds: $units units, $raters raters, gaps $gaps, rounded $rounded', (size) => {
    const random = createSeededRandom(100 * size.units + size.raters);
    for (const [icc, truth] of size.rounded
      ? ([
          [0.1, 0.09],
          [0.4, 0.365],
          [0.8, 0.74],
        ] as const)
      : ([
          [0.1, 0.1],
          [0.4, 0.4],
          [0.8, 0.8],
        ] as const)) {
      let [held, all] = [0, 0];
      for (let round = 0; round < ROUNDS; round += 1) {
        const found = absoluteAgreement(drawn(random, { ...size, icc }));
        if ('undefined' in found) continue;
        all += 1;
        if (truth >= (found.low ?? NaN) && truth <= (found.high ?? NaN)) held += 1;
      }
      // Three standard errors below 95%.
      expect(held / all, `ICC ${icc}`).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / ROUNDS));
    }
  });

  it('ST4: from five units up a word is possible: clear agreement and clear disagreement get one', () => {
    const agreed = absoluteAgreement(
      [
        [1, 1, 1],
        [7, 7, 7],
        [4, 4, 4],
        [2, 2, 2],
        [6, 6, 6],
      ].map((row, at) => (at === 0 ? [1, 1, 2] : row)),
    );
    expect('low' in agreed ? agreed.low : NaN).toBeGreaterThan(0.6);
  });
});
