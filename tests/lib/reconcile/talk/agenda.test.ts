import { describe, expect, it } from 'vitest';
import { agenda } from '#lib/reconcile/talk/agenda';
import { drawColumn } from '#lib/reconcile/merit/drawEstimate';
import type { Flag } from '#lib/reconcile/merit/reconciliation';
import { dealtPoints, jointDraws, type JointDraws } from '#lib/reconcile/merit/jointDraws';
import { noLooks } from '#lib/reconcile/looks/lookPlan';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import type { CheckAnswer, Panel, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { foldDegrees } from '#lib/reconcile/merit/foldDegrees';
import { panelDesign } from '#lib/reconcile/merit/panelDesign';
import { bestOfGain, quantityGain, standardScores } from '#lib/reconcile/looks/partialInformation';
import { purposeWeights } from '#lib/reconcile/panel/purposeWeights';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { closeCallThresholds, slotResults } from '#lib/reconcile/merit/slotResults';
import { varianceDraws } from '#lib/reconcile/merit/varianceDraws';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { fullSize } from '#tests/support/faultSize';
import { examplePanel, questionOf } from '../examplePanel';

const size = { puppies: 6, evaluators: 4, oneSided: 5, twoSided: 3, missing: 0.1, seed: 34 };

const LITTERS = fullSize ? 18 : 8;

/** Independent standard normal merits of `puppies` puppies. */
function normalMerits(puppies: number, count = 20_000) {
  const random = createSeededRandom(7);
  const merits = Float64Array.from({ length: puppies * count }, () => random.normal());
  const column = (at: number) => Float64Array.from({ length: count }, (_, draw) => merits[draw * puppies + at] ?? NaN);
  const eligible = Array.from({ length: puppies }, (_, at) => at);
  return {
    choice: { merits, weights: new Float64Array(count).fill(1), puppies, eligible },
    column,
    other: Float64Array.from({ length: count }, () => random.normal()),
  };
}

describe('value of partial information', () => {
  const two = normalMerits(2);
  const scored = (values: Float64Array) => standardScores(values, two.choice.weights);

  it('ST3: of two level puppies, knowing one leaves E Φ(|x|) = 3/4, knowing their difference leaves no doubt', () => {
    // E Φ(|X|) of a standard normal X is 1/2 + arctan(1) / π, by the bivariate normal orthant probability (Sheppard 1899).
    expect(quantityGain(two.choice, scored(two.column(0)))).toBeCloseTo(0.25, 1.7);
    const second = two.column(1);
    const difference = two.column(0).map((value, at) => value - (second[at] ?? NaN));
    expect(quantityGain(two.choice, scored(difference))).toBeGreaterThan(0.44);
    expect(bestOfGain(two.choice, [0, 1])).toBeCloseTo(0.5, 1.7);
  });

  it('ST3: what tells nothing gains nothing, whatever the weights', () => {
    const { choice, other } = two;
    expect(quantityGain(choice, scored(other))).toBeLessThan(0.01);
    const weights = choice.weights.map((_, at) => (at % 3) + 0.5);
    expect(quantityGain({ ...choice, weights }, standardScores(other, weights))).toBeLessThan(0.01);
    expect(
      quantityGain(
        choice,
        standardScores(
          other.map(() => 2),
          choice.weights,
        ),
      ),
    ).toBe(0);
    expect(quantityGain({ ...choice, eligible: [1] }, scored(two.column(0)))).toBe(0);
    expect(bestOfGain(choice, [0])).toBe(0);
  });
});

describe('agenda', () => {
  it('ST3: five items at most, the largest gain first, each adding up', () => {
    const items = reconcile(questionOf(examplePanel(size))).agenda;
    expect(items.length).toBeGreaterThan(1);
    expect(items.length).toBeLessThanOrEqual(5);
    expect(items.map(({ gain }) => gain)).toEqual(items.map(({ gain }) => gain).toSorted((a, b) => b - a));
    for (const { now, settled, gain } of items) {
      expect(gain).toBeGreaterThan(0);
      expect(settled).toBeCloseTo(now + gain, 12);
      expect(settled).toBeLessThanOrEqual(1);
    }
  });

  it('ST3: no open slot, no agenda; a criterion that weighs nothing and shares nothing is not on it', () => {
    const panel = examplePanel(size);
    const question = questionOf(panel);
    const slots = question.slots.map((slot) => ({ ...slot, picked: panel.puppies[0] ?? '' }));
    expect(reconcile({ ...question, slots }).agenda).toEqual([]);
    expect(reconcile({ ...question, slots: [] }).agenda).toEqual([]);
    const idle = { key: 'idle', twoSided: true };
    const split = panel.puppies.flatMap((puppy) =>
      panel.evaluators.map((evaluator, at) => ({ puppy, evaluator, criterion: 'idle', value: at % 2 === 0 ? -2 : 2 })),
    );
    const wider = {
      ...question,
      panel: { ...panel, criteria: [...panel.criteria, idle], scores: [...panel.scores, ...split] },
    };
    const about = reconcile(wider).agenda.filter(({ flag }) => 'criterion' in flag && flag.criterion === 'idle');
    expect(about).toEqual([]);
  });

  it('ST2: neither the order of rows nor names change it', () => {
    const question = questionOf(examplePanel(size));
    const renamed = (key: string) => `z${[...key].reverse().join('')}`;
    const shuffled: ReconcileQuestion = {
      ...question,
      panel: renamedPanel(question.panel, renamed),
      purposes: question.purposes.map((one) => ({
        ...one,
        weights: Object.fromEntries(Object.entries(one.weights).map(([key, weight]) => [renamed(key), weight])),
      })),
      slots: question.slots.map((slot) => ({ ...slot, eligible: slot.eligible.map(renamed).reverse() })),
    };
    const told = ({ agenda: items }: ReturnType<typeof reconcile>, name: (key: string) => string) =>
      items.map(({ flag, gain, now }) => ({
        kind: flag.kind,
        puppy: 'puppy' in flag ? name(flag.puppy) : null,
        criterion: 'criterion' in flag ? name(flag.criterion) : null,
        gain: gain.toFixed(9),
        now: now.toFixed(9),
      }));
    expect(told(reconcile(shuffled), (key) => key)).toEqual(told(reconcile(question), renamed));
  });

  it('SA1: a split check counts by what it would open or close, and not at all where it holds nothing', () => {
    const question = questionOf(examplePanel({ ...size, seed: 33 }));
    const [first] = reconcile(question).slots[0]?.chances ?? [];
    const puppy = first?.puppy ?? '';
    const checks = (['normal', 'watch'] as const).map(
      (finding, at): CheckAnswer => ({ puppy, check: 'bite', evaluator: `seat${at + 1}`, finding }),
    );
    const slots = question.slots.map((slot) => ({ ...slot, eligible: slot.eligible.filter((one) => one !== puppy) }));
    const told = (stakes: readonly { puppy: string; check: string; slots: readonly string[] }[]) =>
      reconcile({ ...question, slots, beside: { checks, stakes, freeStances: [] } }).agenda.find(
        ({ flag }) => flag.kind === 'splitCheck',
      );
    expect(told([])).toBeUndefined();
    const item = told([{ puppy, check: 'bite', slots: ['first'] }]);
    expect(item?.gain).toBeGreaterThan(0.05);
    expect(item?.gain).toBeLessThan(0.5);
  });

  it('ST3: over simulated litters settling the first item makes more picks right than a random one, by about what was said', () => {
    const all = Array.from({ length: LITTERS }, (_, seed) =>
      settle(examplePanel({ ...size, seed: 100 + seed }), createSeededRandom(seed)),
    );
    // Where the pick is clear nothing on the list can change it; the question is what the order of the list is worth where it is not.
    const litters = all.filter(({ now }) => now < closeCallThresholds.closeBelow);
    expect(litters.length).toBeGreaterThanOrEqual(LITTERS / 2);
    const mean = (of: (one: (typeof litters)[number]) => number) =>
      litters.reduce((sum, one) => sum + of(one), 0) / litters.length;
    const [first, random, stated] = [mean((one) => one.first), mean((one) => one.random), mean((one) => one.stated)];
    expect(first).toBeGreaterThan(random + 0.01);
    expect(first).toBeGreaterThan(2 * random);
    expect(Math.abs(first - stated)).toBeLessThan(fullSize ? 0.01 : 0.02);
  });
});

function renamedPanel(panel: Panel, renamed: (key: string) => string): Panel {
  return {
    scale: panel.scale,
    puppies: panel.puppies.map(renamed).reverse(),
    evaluators: panel.evaluators.map(renamed).reverse(),
    criteria: panel.criteria.map((one) => ({ ...one, key: renamed(one.key) })).reverse(),
    scores: panel.scores
      .map((one) => ({
        ...one,
        puppy: renamed(one.puppy),
        evaluator: renamed(one.evaluator),
        criterion: renamed(one.criterion),
      }))
      .reverse(),
  };
}

/**
 * One litter with every puppy's overall quality on the list. Half of the joint draws play the truth, the other half the panel's knowledge; an
 * item is settled by keeping the tenth of the knowledge that lies nearest the truth on it: no regression, so the estimate under test has no part.
 */
function settle(panel: Panel, random: ReturnType<typeof createSeededRandom>) {
  const question = questionOf(panel);
  const design = panelDesign(panel, new Set(), foldDegrees(meritPriors));
  const points = dealtPoints(varianceDraws(design, meritPriors, { random, count: 120 }), { places: 1250 }, random);
  const weights = question.purposes.map((purpose) => purposeWeights(design.criteria, purpose));
  const draws = jointDraws({ design, priors: meritPriors, points, weights, plan: noLooks, watched: [] }, random);
  const merits = {
    merits: draws.merits[0] ?? new Float64Array(0),
    weights: new Float64Array(draws.count).fill(1),
    puppies: design.puppies.length,
  };
  const byPurpose = new Map([['show', merits]]);
  const results = slotResults(question.slots, {
    puppies: design.puppies,
    byPurpose,
    thresholds: closeCallThresholds,
    unit: design.unit,
  });
  const flags = design.puppies.map((puppy): Flag => ({ kind: 'splitOnPuppy', puppy, range: 2 }));
  const folded = { draws, weights: merits.weights, effective: draws.count };
  const beside = { checks: [], stakes: [], freeStances: [] };
  const items = agenda(
    flags,
    { design, folded, watched: [], byPurpose, slots: question.slots, results, beside },
    { most: flags.length, leastGain: 0 },
  );
  const gained = items.map(({ flag }) =>
    realisedGain(draws, design.puppies.indexOf('puppy' in flag ? flag.puppy : '')),
  );
  return {
    now: items[0]?.now ?? NaN,
    stated: items[0]?.gain ?? NaN,
    first: gained[0] ?? NaN,
    random: gained.reduce((sum, one) => sum + one, 0) / gained.length,
  };
}

function realisedGain(draws: JointDraws, item: number): number {
  const merits = draws.merits[0] ?? new Float64Array(0);
  const puppies = merits.length / draws.count;
  const rows = Array.from({ length: draws.count }, (_, row) => row);
  // Mirrored pairs stay together, so that no truth has its mirror image among the knowledge.
  const known = rows.filter((row) => Math.floor(row / 2) % 2 === 0);
  const truths = rows.filter((row) => Math.floor(row / 2) % 10 === 1);
  const bests = rows.map((row) => {
    const own = [...merits.subarray(row * puppies, (row + 1) * puppies)];
    return own.indexOf(Math.max(...own));
  });
  const pick = (kept: readonly number[]) => {
    const counts = rows.slice(0, puppies).map((puppy) => kept.filter((row) => bests[row] === puppy).length);
    return counts.indexOf(Math.max(...counts));
  };
  const blind = pick(known);
  const values = drawColumn(draws.general, puppies, item);
  const gapTo = (truth: number) => (row: number) => Math.abs((values[row] ?? NaN) - (values[truth] ?? NaN));
  const right = truths.map((truth) => {
    const gaps = known.map(gapTo(truth));
    const near = Float64Array.from(gaps).toSorted()[Math.floor(known.length / 10)] ?? 0;
    const informed = pick(known.filter((_, at) => (gaps[at] ?? 0) < near));
    return Number(informed === bests[truth]) - Number(blind === bests[truth]);
  });
  return right.reduce((sum, one) => sum + one, 0) / truths.length;
}
