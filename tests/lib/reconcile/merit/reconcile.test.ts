import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import type { Panel } from '#lib/reconcile/panel/panel';
import { plainContrasts } from '#lib/reconcile/panel/plainMean';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import type { Merit, Reconciliation } from '#lib/reconcile/merit/reconciliation';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { examplePanel, questionOf } from '../examplePanel';

const quick = { ...reconcileSettings, sampling: { points: 60, pairs: 150 } };
const example = examplePanel({ puppies: 5, evaluators: 3, oneSided: 5, twoSided: 2, missing: 0.1, seed: 1 });

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const random = createSeededRandom(seed);
  return list
    .map((value) => ({ value, at: random.uniform() }))
    .sort((a, b) => a.at - b.at)
    .map(({ value }) => value);
}

function meritOf(answer: Reconciliation, puppy: string): Merit {
  const merit = answer.purposes[0]?.merit.find((one) => one.puppy === puppy);
  if (!merit) throw new Error(`no merit for ${puppy}`);
  return merit;
}

function everyNumber(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (Array.isArray(value)) return value.flatMap(everyNumber);
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(everyNumber) : [];
}

describe('the numbers depend on the data alone', () => {
  it('ST2: the same question has the same answer', () => {
    expect(reconcile(questionOf(example), quick)).toEqual(reconcile(questionOf(example), quick));
  });

  it('ST2: rows, puppies, evaluators and criteria may come in any order', () => {
    const mixed: Panel = {
      ...example,
      puppies: shuffled(example.puppies, 1),
      evaluators: shuffled(example.evaluators, 2),
      criteria: shuffled(example.criteria, 3),
      scores: shuffled(example.scores, 4),
    };
    const [answer, again] = [reconcile(questionOf(example), quick), reconcile(questionOf(mixed), quick)];
    expect(again.purposes).toEqual(answer.purposes);
    expect(again.slots).toEqual(answer.slots);
    expect(new Set(again.evaluators)).toEqual(new Set(answer.evaluators));
  });

  it('ST2: other names for puppies, evaluators and criteria change no number', () => {
    const renamed = (key: string) => `${[...key].reverse().join('')}-${key}`;
    const panel: Panel = {
      scale: example.scale,
      puppies: example.puppies.map(renamed),
      evaluators: example.evaluators.map(renamed),
      criteria: example.criteria.map(({ key, twoSided }) => ({ key: renamed(key), twoSided })),
      scores: example.scores.map((score) => ({
        puppy: renamed(score.puppy),
        evaluator: renamed(score.evaluator),
        criterion: renamed(score.criterion),
        value: score.value,
      })),
    };
    const [answer, again] = [reconcile(questionOf(example), quick), reconcile(questionOf(panel), quick)];
    for (const puppy of example.puppies)
      expect(meritOf(again, renamed(puppy))).toEqual({ ...meritOf(answer, puppy), puppy: renamed(puppy) });
    expect(again.evaluators.map(({ severity, noise }) => [severity, noise])).toEqual(
      answer.evaluators.map(({ severity, noise }) => [severity, noise]),
    );
  });

  it('ST2: a seat without scores changes nothing and is told why it has no figures', () => {
    const panel = { ...example, evaluators: ['silent', ...example.evaluators] };
    const [answer, again] = [reconcile(questionOf(example), quick), reconcile(questionOf(panel), quick)];
    expect(again.purposes).toEqual(answer.purposes);
    expect(again.evaluators.slice(1)).toEqual(answer.evaluators);
    const reason = { undefined: 'this seat gave no scores' };
    expect(again.evaluators[0]).toEqual({
      evaluator: 'silent',
      severity: reason,
      liking: reason,
      noise: reason,
      standsOut: { liking: 0, noise: 0 },
    });
  });

  it('ST2: a criterion that nobody scored and nothing weighs changes nothing', () => {
    const panel = { ...example, criteria: [{ key: 'idle', twoSided: false }, ...example.criteria] };
    const question = { ...questionOf(example), panel };
    expect(reconcile(question, quick)).toEqual(reconcile(questionOf(example), quick));
  });

  it('ST2: a sheet moved and stretched gives the same merit moved and stretched', () => {
    const stretched: Panel = {
      ...example,
      scale: { low: 10, high: 70 },
      criteria: example.criteria.filter(({ twoSided }) => !twoSided),
      scores: example.scores
        .filter(({ criterion }) => example.criteria.some(({ key, twoSided }) => key === criterion && !twoSided))
        .map((score) => ({ ...score, value: 10 * score.value })),
    };
    const plain: Panel = {
      ...stretched,
      scale: { low: 1, high: 7 },
      scores: stretched.scores.map((score) => ({ ...score, value: score.value / 10 })),
    };
    const full = { ...reconcileSettings, sampling: { points: 240, pairs: 2000 } };
    const [small, large] = [reconcile(questionOf(plain), full), reconcile(questionOf(stretched), full)];
    for (const puppy of example.puppies)
      expect(meritOf(large, puppy).estimate / 10).toBeCloseTo(meritOf(small, puppy).estimate, 1);
  });
});

describe('what the panel says and does not say', () => {
  it('ST1: no panel, however thin, throws or yields a number that is none', () => {
    const size = fc.record({
      puppies: fc.integer({ min: 0, max: 3 }),
      evaluators: fc.integer({ min: 0, max: 3 }),
      oneSided: fc.integer({ min: 0, max: 2 }),
      twoSided: fc.integer({ min: 0, max: 2 }),
      missing: fc.constantFrom(0, 0.4, 1),
      seed: fc.integer({ min: 1, max: 1000 }),
    });
    const tiny = { ...reconcileSettings, sampling: { points: 12, pairs: 20 } };
    fc.assert(
      fc.property(size, fc.boolean(), (chosen, level) => {
        const panel = examplePanel(chosen);
        const scores = level ? panel.scores.map((score) => ({ ...score, value: 1 })) : panel.scores;
        const answer = reconcile(questionOf({ ...panel, scores }), tiny);
        expect(everyNumber(answer).every(Number.isFinite)).toBe(true);
        for (const { ranks } of answer.purposes[0]?.merit ?? [])
          expect(ranks.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it('ST1: one seat alone has figures for puppies and reasons instead of figures for itself', () => {
    const panel = examplePanel({ puppies: 4, evaluators: 1, oneSided: 4, twoSided: 1, missing: 0, seed: 3 });
    const [seat] = reconcile(questionOf(panel), quick).evaluators;
    const reason = { undefined: 'one seat alone has nobody to be compared with' };
    expect(seat).toEqual({
      evaluator: 'seat1',
      severity: reason,
      liking: reason,
      noise: reason,
      standsOut: { liking: 0, noise: 0 },
    });
  });

  it('ST1: below three seats likings share one SD', () => {
    const two = examplePanel({ puppies: 6, evaluators: 2, oneSided: 6, twoSided: 0, missing: 0, seed: 3 });
    const [first, second] = reconcile(questionOf(two), quick).evaluators;
    expect(first?.liking).toEqual(second?.liking);
    const three = examplePanel({ puppies: 6, evaluators: 3, oneSided: 6, twoSided: 0, missing: 0, seed: 3 });
    const [one, other] = reconcile(questionOf(three), quick).evaluators;
    expect(one?.liking).not.toEqual(other?.liking);
  });

  it('ST1: a purpose that weighs nothing leaves every puppy level', () => {
    const question = { ...questionOf(example), purposes: [{ key: 'show', weights: {} }] };
    const answer = reconcile(question, quick);
    for (const { estimate, ranks, mean } of answer.purposes[0]?.merit ?? []) {
      expect(estimate).toBe(0);
      expect(mean).toBeNull();
      for (const chance of ranks) expect(chance).toBeCloseTo(0.2, 12);
    }
  });

  it('ST1: a puppy nobody judged keeps a wide posterior and no plain mean', () => {
    const scores = example.scores.filter(({ puppy }) => puppy !== 'puppy2');
    const answer = reconcile(questionOf({ ...example, scores }), quick);
    const unjudged = meritOf(answer, 'puppy2');
    expect(unjudged.mean).toBeNull();
    for (const { puppy, sd } of answer.purposes[0]?.merit ?? [])
      if (puppy !== 'puppy2') expect(sd).toBeLessThan(unjudged.sd);
  });

  it('ST3: merits are contrasts within the litter, and chances of ranks and pairs add up', () => {
    const answer = reconcile(questionOf(example), quick);
    const [result] = answer.purposes;
    expect(result?.merit.reduce((sum, { estimate }) => sum + estimate, 0)).toBeCloseTo(0, 9);
    for (let rank = 0; rank < 5; rank += 1)
      expect(result?.merit.reduce((sum, { ranks }) => sum + (ranks[rank] ?? 0), 0)).toBeCloseTo(1, 9);
    expect((result?.better['puppy1']?.['puppy2'] ?? 0) + (result?.better['puppy2']?.['puppy1'] ?? 0)).toBeCloseTo(
      1,
      12,
    );
    expect(answer.slots[0]?.chances.map(({ probability }) => probability)).toEqual(
      result?.merit.map(({ ranks }) => ranks[0]).sort((a, b) => (b ?? 0) - (a ?? 0)),
    );
  });
});

describe('merit beside the plain mean', () => {
  it('ST3: with complete data and evaluators alike the order is that of the plain means', () => {
    const alike = { ...quick, priors: { ...meritPriors, evaluatorsAlike: true } };
    for (let seed = 1; seed <= 12; seed += 1) {
      const panel = examplePanel({ puppies: 7, evaluators: 4, oneSided: 6, twoSided: 0, missing: 0, seed });
      const question = questionOf(panel);
      const means = plainContrasts(panel, { key: 'show', weights: question.purposes[0]?.weights ?? {} });
      const merit = reconcile(question, alike).purposes[0]?.merit ?? [];
      const means_ = merit.map(({ puppy }) => means.get(puppy) ?? NaN);
      for (let at = 1; at < means_.length; at += 1)
        expect(means_[at - 1]).toBeGreaterThanOrEqual((means_[at] ?? NaN) - 1e-9);
    }
  });

  it("ST3: the mean is that of each score's own quality", () => {
    const panel: Panel = {
      scale: { low: 1, high: 7 },
      puppies: ['a', 'b', 'c'],
      evaluators: ['x'],
      criteria: [
        { key: 'front', twoSided: false },
        { key: 'neck', twoSided: true },
      ],
      scores: [
        { puppy: 'a', evaluator: 'x', criterion: 'front', value: 5 },
        { puppy: 'a', evaluator: 'x', criterion: 'neck', value: -1 },
        { puppy: 'b', evaluator: 'x', criterion: 'neck', value: 2 },
      ],
    };
    const purposes = [{ key: 'show', weights: { front: 3, neck: 1 } }];
    const answer = reconcile({ panel, purposes, slots: [], looks: [] }, quick);
    // a: (3 · 5 + 1 · (7 − 2)) / 4 = 5; b: 7 − 2 · 2 = 3; litter 4.
    expect(['a', 'b', 'c'].map((puppy) => meritOf(answer, puppy).mean)).toEqual([1, -1, null]);
  });

  it('ST3: a seat that leans to one side and missed puppies does not push back those it saw', () => {
    // Everybody agrees that all puppies are alike, but the leaning seat calls what it sees two steps too much.
    const base = examplePanel({ puppies: 6, evaluators: 4, oneSided: 0, twoSided: 5, missing: 0, seed: 9 });
    const seen = new Set(['puppy1', 'puppy2', 'puppy3']);
    const scores = base.scores
      .filter(({ evaluator, puppy }) => evaluator !== 'seat1' || seen.has(puppy))
      .map((score) => ({ ...score, value: score.evaluator === 'seat1' ? 2 : score.puppy === 'puppy1' ? -1 : 0 }));
    const answer = reconcile(questionOf({ ...base, scores }), {
      ...reconcileSettings,
      sampling: { points: 200, pairs: 1000 },
    });
    const gap = (kind: 'estimate' | 'mean') =>
      (meritOf(answer, 'puppy5')[kind] ?? NaN) - (meritOf(answer, 'puppy2')[kind] ?? NaN);
    expect(gap('mean')).toBeCloseTo(1, 9);
    expect(Math.abs(gap('estimate'))).toBeLessThan(0.25);
  });
});

describe('the level of a seat', () => {
  it('ST4: is told against the middle of the panel: one severe seat does not make lenient ones of those who score alike', () => {
    const even = examplePanel({ puppies: 7, evaluators: 4, oneSided: 8, twoSided: 0, missing: 0, seed: 4 });
    const levels = new Map(
      even.evaluators.map((seat) => {
        const own = even.scores.filter(({ evaluator }) => evaluator === seat).map(({ value }) => value);
        return [seat, own.reduce((sum, value) => sum + value, 0) / own.length];
      }),
    );
    // Every seat at 4.5 but the first, two and a half points below.
    const scores = even.scores.map((score) => ({
      ...score,
      value: score.value - (levels.get(score.evaluator) ?? 0) + (score.evaluator === 'seat1' ? 2 : 4.5),
    }));
    const told = reconcile(questionOf({ ...even, scale: { low: -6, high: 12 }, scores })).evaluators.map(
      ({ severity }) => ('undefined' in severity ? NaN : severity.value),
    );
    expect(told[0]).toBeCloseTo(-2.5, 0);
    for (const level of told.slice(1)) expect(Math.abs(level)).toBeLessThan(0.3);
  });
});
