import fc from 'fast-check';
import { expect, it } from 'vitest';
import { lesson } from '#lib/reconcile/lesson/lesson';
import { lessonPick } from '#lib/reconcile/lesson/lessonPick';
import { lessonProgress } from '#lib/reconcile/lesson/lessonProgress';
import type { Panel } from '#lib/reconcile/panel/panel';
import { lessonSentences } from '#lib/reconcile/sentences/lessonSentences';
import { createSeededRandom } from '#lib/stats/seededRandom';

const seats = { learner: 'learner', mentor: 'mentor' };
const keys = Array.from({ length: 12 }, (_, at) => `c${at}`);
const puppies = Array.from({ length: 8 }, (_, at) => `p${at}`);

type Cell = { readonly puppy: number; readonly criterion: number; readonly learner: boolean };

function panelOf(value: (cell: Cell) => number): Panel {
  const scores = [true, false].flatMap((learner) =>
    puppies.flatMap((puppy, p) =>
      keys.map((criterion, c) => ({
        puppy,
        criterion,
        evaluator: learner ? 'learner' : 'mentor',
        value: value({ puppy: p, criterion: c, learner }),
      })),
    ),
  );
  return {
    scale: { low: 1, high: 7 },
    puppies,
    evaluators: ['learner', 'mentor'],
    criteria: keys.map((key) => ({ key, twoSided: false })),
    scores,
  };
}

it('ST4: two seats that differ by chance alone have a criterion called beyond the expected in at most about 1 of 10 lessons', () => {
  const random = createSeededRandom(20261125);
  const lessons = Array.from({ length: 400 }, () =>
    lesson(
      panelOf(({ puppy }) => Math.min(7, Math.max(1, Math.round(4 + puppy / 4 + 0.9 * random.normal())))),
      seats,
    ),
  );
  const flagged = lessons.filter(({ criteria }) => criteria.some(({ beyond }) => beyond)).length / lessons.length;
  // The limit is set for 0.10; four standard errors of 400 lessons on either side, less the little that rounding takes.
  expect(flagged).toBeGreaterThan(0.03);
  expect(flagged).toBeLessThan(0.16);
});

it('ST4: a level of one’s own is no criterion’s fault; a criterion read two points higher is', () => {
  const random = createSeededRandom(7);
  const found = lesson(
    panelOf(
      ({ puppy, criterion, learner }) =>
        3 + (puppy % 3) + (learner ? 1 : 0) + (learner && criterion === 4 ? 2 : 0) + (random.uniform() < 0.3 ? 1 : 0),
    ),
    seats,
  );
  expect(found.criteria.filter(({ beyond }) => beyond).map(({ criterion }) => criterion)).toEqual(['c4']);
  expect('undefined' in found.level ? 0 : found.level.value).toBeGreaterThan(1);
});

it('ST4: over simulated lessons with likings the interval of the level holds the truth in about 90 of 100', () => {
  const random = createSeededRandom(11);
  let inside = 0;
  for (let each = 0; each < 300; each += 1) {
    const liking = puppies.map(() => 0.5 * random.normal());
    const found = lesson(
      panelOf(({ puppy, learner }) => 4 + (learner ? (liking[puppy] ?? 0) : 0) + 0.7 * random.normal()),
      seats,
    ).level;
    if (!('undefined' in found) && found.low <= 0 && found.high >= 0) inside += 1;
  }
  // Three standard errors of 300 lessons are 0.052; as if the scores were independent it would be about 0.5.
  expect(Math.abs(inside / 300 - 0.9)).toBeLessThan(0.052);
});

it('ST4: where means agree and orders do not, the order is told: a mentor who gives 7, 1, 1, 1 and a learner who gives 4, 5, 6, 5', () => {
  const given = { mentor: [7, 1, 1, 1], learner: [4, 5, 6, 5] };
  const few = puppies.slice(0, 4);
  const scores = (['learner', 'mentor'] as const).flatMap((evaluator) =>
    few.flatMap((puppy, p) =>
      keys.slice(0, 3).map((criterion, c) => ({
        puppy,
        criterion,
        evaluator,
        value: c === 0 ? (given[evaluator][p] ?? 4) : 4 + (p % 2),
      })),
    ),
  );
  const panel: Panel = {
    scale: { low: 1, high: 7 },
    puppies: few,
    evaluators: ['learner', 'mentor'],
    criteria: keys.slice(0, 3).map((key) => ({ key, twoSided: false })),
    scores,
  };
  const found = lesson(panel, seats);
  expect(found.criteria.map(({ parted, turned }) => [parted, turned])).toEqual([
    [3, 3],
    [0, 0],
    [0, 0],
  ]);
  expect(lessonSentences(found, { c0: 'forechest' })).toContain(
    'Forechest: of 3 pairs of puppies that the mentor parts by a third of the scale or more, the learner puts all level or the other way round.',
  );
  const same = lesson(
    {
      ...panel,
      scores: scores.map((score) => ({
        ...score,
        evaluator: score.evaluator,
        value:
          scores.find(
            (one) => one.evaluator === 'mentor' && one.puppy === score.puppy && one.criterion === score.criterion,
          )?.value ?? 4,
      })),
    },
    seats,
  );
  expect(lessonSentences(same, {}).join(' ')).not.toContain('other way round');
});

it('ST1: with two puppies, or nothing in common, there is too little to say, never NaN', () => {
  const few = panelOf(() => 4);
  const two = lesson({ ...few, scores: few.scores.filter(({ puppy }) => puppy === 'p0' || puppy === 'p1') }, seats);
  const none = lesson({ ...few, scores: few.scores.filter(({ evaluator }) => evaluator === 'learner') }, seats);
  for (const found of [two, none]) {
    expect(found.level).toEqual({ undefined: 'too few data' });
    expect(found.criteria.some(({ beyond }) => beyond)).toBe(false);
    expect(JSON.stringify(found)).not.toContain('NaN');
  }
});

it('ST3: the shares of all criteria add up to the whole parting, so each is its Shapley value, worked here by every order of exchange', () => {
  const small = ['a', 'b', 'c'];
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 12, maxLength: 12 }),
      fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 3, maxLength: 3 }),
      (values, weights) => {
        let at = 0;
        const scores = ['learner', 'mentor'].flatMap((evaluator) =>
          ['own', 'other'].flatMap((puppy) =>
            small.map((criterion) => ({ evaluator, puppy, criterion, value: values[at++] ?? 4 })),
          ),
        );
        const panel: Panel = {
          scale: { low: 1, high: 7 },
          puppies: ['own', 'other'],
          evaluators: ['learner', 'mentor'],
          criteria: small.map((key) => ({ key, twoSided: false })),
          scores,
        };
        const byKey = Object.fromEntries(small.map((key, index) => [key, weights[index] ?? 1]));
        const value = (evaluator: string, puppy: string, criterion: string) =>
          scores.find((one) => one.evaluator === evaluator && one.puppy === puppy && one.criterion === criterion)
            ?.value ?? 0;
        // The learner's lead with the criteria of `taken` read by the mentor instead: what an exchange does.
        const lead = (taken: readonly string[]) =>
          small.reduce(
            (sum, key) =>
              sum +
              (byKey[key] ?? 0) *
                (value(taken.includes(key) ? 'mentor' : 'learner', 'own', key) -
                  value(taken.includes(key) ? 'mentor' : 'learner', 'other', key)),
            0,
          );
        const orders = [
          ['a', 'b', 'c'],
          ['a', 'c', 'b'],
          ['b', 'a', 'c'],
          ['b', 'c', 'a'],
          ['c', 'a', 'b'],
          ['c', 'b', 'a'],
        ];
        const shapley = small.map(
          (key) =>
            orders.reduce(
              (sum, order) =>
                sum + lead(order.slice(0, order.indexOf(key))) - lead(order.slice(0, order.indexOf(key) + 1)),
              0,
            ) / orders.length,
        );
        const pull = shapley.filter((term) => term > 0).reduce((sum, term) => sum + term, 0);
        const found = lessonPick(
          panel,
          { key: 'keep', weights: byKey },
          { ...seats, learnersPuppy: 'own', mentorsPuppy: 'other' },
        );
        if (!(pull > 1e-9)) {
          expect(found).toBeNull();
          return;
        }
        expect(found?.parting).toBeCloseTo(
          shapley.reduce((sum, term) => sum + term, 0) / weights.reduce((sum, weight) => sum + weight, 0),
          9,
        );
        for (const { criterion, share } of found?.by ?? [])
          expect(share).toBeCloseTo((shapley[small.indexOf(criterion)] ?? 0) / pull, 9);
      },
    ),
  );
});

it('ST4: progress below three litters is too few data, and the number of litters stands beside it', () => {
  const past = (gaps: readonly number[]) => gaps.map((gap, at) => ({ heldOn: `2026-0${at + 1}-01`, gap }));
  expect(lessonProgress(past([1, 0.8]))).toMatchObject({
    litters: 2,
    mean: { undefined: 'too few data' },
    change: { undefined: 'too few data' },
  });
  const found = lessonProgress(past([1.2, 1.0, 0.8, 0.6]).toReversed());
  expect(found.litters).toBe(4);
  expect('undefined' in found.change ? 0 : found.change.value).toBeCloseTo(-0.2, 9);
  expect(found.lessons.map(({ gap }) => gap)).toEqual([1.2, 1, 0.8, 0.6]);
});
