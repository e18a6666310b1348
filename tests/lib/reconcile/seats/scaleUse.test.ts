import { describe, expect, it } from 'vitest';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import type { Panel } from '#lib/reconcile/panel/panel';
import { reversedCriteria, scaleUse } from '#lib/reconcile/seats/scaleUse';
import { seatQuestions } from '#lib/reconcile/seats/seatQuestions';
import { scaleUseSentence } from '#lib/reconcile/sentences/robustnessSentences';
import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { fullSize } from '#tests/support/faultSize';

const plain = scenarios.find(({ key }) => key === 'plain') ?? expect.fail();
const simulated = (seed: number) => simulateLitter(plain, createSeededRandom(seedFromNumbers([55, seed]))).panel;

/** Every seat's scores stretched about the middle of the scale by its own factor, noise and all, not rounded anew. */
const stretched = (panel: Panel, slopes: readonly number[]): Panel => ({
  ...panel,
  scores: panel.scores.map((score) => ({
    ...score,
    value: 4 + (slopes[panel.evaluators.indexOf(score.evaluator)] ?? 1) * (score.value - 4),
  })),
});

const slopesOf = (panel: Panel) =>
  panel.evaluators.map((seat) => scaleUse(panel).find(({ evaluator }) => evaluator === seat)?.slope ?? NaN);

describe('use of the scale', () => {
  it('ST3: worked example: one seat of three gives twice the difference for the same puppies', () => {
    const scores = ['a', 'b'].flatMap((puppy, at) =>
      [1, 1, 2].flatMap((reach, seat) =>
        ['x', 'y'].map((criterion) => ({
          puppy,
          evaluator: `s${seat}`,
          criterion,
          value: 4 + (at === 0 ? reach : -reach),
        })),
      ),
    );
    const found = scaleUse({
      scale: { low: 1, high: 7 },
      puppies: ['a', 'b'],
      evaluators: ['s0', 's1', 's2'],
      criteria: ['x', 'y'].map((key) => ({ key, twoSided: false })),
      scores,
    });
    // Covariances 1, 2 and 2 u² are 0.79 · 0.79 and 0.79 · 1.59 times the same; both puppies say so alike, so nothing is drawn together.
    [0.7937, 0.7937, 1.5874].forEach((slope, at) => expect(found[at]?.slope).toBeCloseTo(slope, 4));
  });

  it('ST4: seats that use the scale alike have slopes near 1, and those who use 0.4 to 1.8 of it are told apart in their order', () => {
    let [worst, ordered, widest] = [0, 0, 0];
    for (let seed = 0; seed < 40; seed += 1) {
      const alike = slopesOf(simulated(seed));
      worst += Math.max(...alike.map((slope) => Math.abs(Math.log(slope)))) / 40;
      const apart = slopesOf(stretched(simulated(seed), [0.4, 0.8, 1.2, 1.8]));
      if (apart[3] === Math.max(...apart)) widest += 1;
      if (apart.every((slope, at) => at === 0 || slope > (apart[at - 1] ?? NaN))) ordered += 1;
    }
    expect(worst).toBeLessThan(0.25);
    expect(widest).toBeGreaterThanOrEqual(30);
    expect(ordered).toBeGreaterThan(20);
  });

  it('ST4: it is said of few panels whose seats use the scale alike, of most where one uses 1.8 and another 0.4, and never in figures no scale holds', () => {
    const told = (panel: Panel) => seatQuestions(panel).scaleUse.flatMap((one) => scaleUseSentence(one, {}) ?? []);
    const kinds = ['plain', 'flat', 'degrees', 'copier'].flatMap((key) => scenarios.filter((one) => one.key === key));
    for (const kind of kinds) {
      const panels = Array.from(
        { length: fullSize ? 40 : 12 },
        (_, seed) => simulateLitter(kind, createSeededRandom(seedFromNumbers([56, seed]))).panel,
      );
      expect(panels.filter((panel) => told(panel).length > 0).length, kind.key).toBeLessThanOrEqual(fullSize ? 4 : 1);
      for (const { slope } of panels.flatMap((panel) => scaleUse(panel)))
        expect(Math.abs(Math.log(slope)), kind.key).toBeLessThan(Math.log(3));
    }
    const apart = Array.from({ length: 12 }, (_, seed) => told(stretched(simulated(seed), [0.4, 0.8, 1.2, 1.8])));
    expect(apart.filter((lines) => lines.length > 0).length).toBeGreaterThan(6);
  });

  it('ST1: two seats, no scores, and puppies all alike give no slopes', () => {
    const panel = simulated(1);
    expect(scaleUse({ ...panel, scores: panel.scores.filter(({ evaluator }) => evaluator < 'evaluator3') })).toEqual(
      [],
    );
    expect(scaleUse({ ...panel, scores: [] })).toEqual([]);
    expect(scaleUse({ ...panel, scores: panel.scores.map((score) => ({ ...score, value: 4 })) })).toEqual([]);
  });
});

describe('a criterion scored upside down', () => {
  const clear = (seed: number): Panel => {
    const random = createSeededRandom(seed);
    const puppies = Array.from({ length: 8 }, (_, at) => `p${at}`);
    const scores = ['front', 'rear'].flatMap((criterion) =>
      puppies.flatMap((puppy, at) =>
        ['a', 'b', 'c', 'd'].map((evaluator) => ({
          puppy,
          criterion,
          evaluator,
          value: Math.max(1, Math.min(7, Math.round(1.5 + 0.7 * at + 0.5 * random.normal()))),
        })),
      ),
    );
    return {
      scale: { low: 1, high: 7 },
      puppies,
      evaluators: ['a', 'b', 'c', 'd'],
      criteria: ['front', 'rear'].map((key) => ({ key, twoSided: false })),
      scores,
    };
  };

  it('ST4: is found with its seat, and nowhere else', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const panel = clear(seed);
      expect(reversedCriteria(panel)).toEqual([]);
      const turned = {
        ...panel,
        scores: panel.scores.map((score) =>
          score.evaluator === 'c' && score.criterion === 'rear' ? { ...score, value: 8 - score.value } : score,
        ),
      };
      expect(reversedCriteria(turned).map(({ evaluator, criterion }) => [evaluator, criterion])).toEqual([
        ['c', 'rear'],
      ]);
    }
  });

  it('ST4: ordinary panels hardly ever have one', () => {
    let told = 0;
    for (let seed = 0; seed < 60; seed += 1) told += reversedCriteria(simulated(seed)).length > 0 ? 1 : 0;
    expect(told).toBeLessThanOrEqual(2);
  });
});
