import { describe, expect, it } from 'vitest';
import { identicalSeats } from '#lib/reconcile/seats/identicalSeats';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import type { Panel } from '#lib/reconcile/panel/panel';
import { identicalSeatsSentence } from '#lib/reconcile/sentences/identicalSeatsSentence';
import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';

const plain = scenarios.find(({ key }) => key === 'plain') ?? expect.fail();
const ordinary = plain.evaluators[0] ?? expect.fail();

function simulated(
  seed: number,
  seats: number,
  change: (panel: Panel, random: ReturnType<typeof createSeededRandom>) => Panel = (panel) => panel,
): Panel {
  const random = createSeededRandom(seedFromNumbers([77, seed, seats]));
  const { panel } = simulateLitter(
    { ...plain, twoSided: 4, evaluators: Array.from({ length: seats }, () => ordinary) },
    random,
  );
  return change(panel, random);
}

/** `copier` gives what `model` gave in this share of the cells. */
const copying =
  (share: number) =>
  (panel: Panel, random: ReturnType<typeof createSeededRandom>): Panel => {
    const told = new Map(
      panel.scores
        .filter(({ evaluator }) => evaluator === 'evaluator1')
        .map(({ puppy, criterion, value }) => [`${puppy} ${criterion}`, value]),
    );
    const scores = panel.scores.map((score) =>
      score.evaluator === 'evaluator2' && random.uniform() < share
        ? { ...score, value: told.get(`${score.puppy} ${score.criterion}`) ?? score.value }
        : score,
    );
    return { ...panel, scores };
  };

const threeKeys = (panel: Panel): Panel => ({
  ...panel,
  scores: panel.scores.map((score) => {
    const middle = panel.criteria.find(({ key }) => key === score.criterion)?.twoSided ? 0 : 4;
    return { ...score, value: middle + Math.max(-1, Math.min(1, Math.round((score.value - middle) / 2))) };
  }),
});

const share = (count: number, of: (seed: number) => boolean) =>
  Array.from({ length: count }, (_, seed) => of(seed)).filter(Boolean).length / count;

describe('two seats that answer alike', () => {
  it.each([
    [3, 'ordinary'],
    [4, 'ordinary'],
    [6, 'ordinary'],
    [4, 'three keys'],
  ] as const)('ST4: %i seats who score by themselves, %s: hardly any panel is told so', (seats, kind) => {
    const flagged = share(
      200,
      (seed) => identicalSeats(simulated(seed, seats, kind === 'three keys' ? threeKeys : undefined)).length > 0,
    );
    expect(flagged).toBeLessThanOrEqual(0.02);
  });

  it('ST4: a seat that repeats another in nine cells of ten is found in every panel, one in six of ten in most, and nobody else', () => {
    const pair = (seed: number, rate: number) => identicalSeats(simulated(seed, 4, copying(rate)));
    const isThem = (seed: number, rate: number) =>
      pair(seed, rate).some(({ seats }) => [...seats].sort().join() === 'evaluator1,evaluator2');
    expect(share(60, (seed) => isThem(seed, 0.9))).toBe(1);
    expect(share(60, (seed) => isThem(seed, 0.6))).toBeGreaterThan(0.8);
    expect(share(60, (seed) => pair(seed, 0.9).length === 1)).toBeGreaterThan(0.9);
  });

  it('ST1: below three seats, with few cells, or with none in common, nobody is named', () => {
    expect(identicalSeats(simulated(1, 2, copying(1)))).toEqual([]);
    const few = simulated(1, 3, copying(1));
    expect(identicalSeats({ ...few, scores: few.scores.filter(({ puppy }) => puppy === 'puppy1') })).toEqual([]);
    expect(identicalSeats({ ...few, scores: [] })).toEqual([]);
  });

  it('ST2: neither the order of rows nor of seats changes it', () => {
    const panel = simulated(3, 4, copying(0.9));
    const [one] = identicalSeats(panel);
    const [other] = identicalSeats({
      ...panel,
      evaluators: [...panel.evaluators].reverse(),
      scores: [...panel.scores].reverse(),
    });
    expect({ ...other, seats: [...(other?.seats ?? [])].sort() }).toEqual({
      ...one,
      seats: [...(one?.seats ?? [])].sort(),
    });
  });

  it('ST4: what is said blames nobody and gives both figures', () => {
    expect(
      identicalSeatsSentence(
        { seats: ['a', 'b'], cells: 96, alike: 80, expected: 0.38, modelled: true },
        { a: 'the breeder', b: 'the mentor' },
      ),
    ).toBe(
      'The breeder and the mentor gave the same score in 80 of 96 cells, where about 36 are to be expected in this panel. They may see alike, or have heard each other. The order takes what they have in common as one opinion; what it is without each of them stands under “How far this order holds”.',
    );
  });
});
