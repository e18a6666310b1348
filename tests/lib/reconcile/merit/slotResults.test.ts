import { describe, expect, it } from 'vitest';
import { drawSummary } from '#lib/reconcile/merit/drawEstimate';
import { bestChances, betterChances, rankChances } from '#lib/reconcile/merit/rankChances';
import { closeCallThresholds, slotResults } from '#lib/reconcile/merit/slotResults';
import type { SlotQuestion } from '#lib/reconcile/panel/panel';

/** Ten readings of four puppies: ash first in six, birch in three, cedar in one; dill last but level with cedar twice. */
const readings = [
  ...Array.from({ length: 6 }, () => [4, 3, 2, 1]),
  ...Array.from({ length: 2 }, () => [3, 4, 1, 1]),
  [3, 4, 2, 1],
  [2, 1, 4, 3],
];
const merits = { merits: Float64Array.from(readings.flat()), weights: new Float64Array(10).fill(1), puppies: 4 };
const puppies = ['ash', 'birch', 'cedar', 'dill'];
const source = { puppies, byPurpose: new Map([['show', merits]]), thresholds: closeCallThresholds, unit: 2 };

function slot(key: string, given: Partial<SlotQuestion> = {}): SlotQuestion {
  return { key, purpose: 'show', eligible: puppies, picked: null, ...given };
}

function expectClose(found: readonly number[], wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length);
  for (const [at, value] of wanted.entries()) expect(found[at]).toBeCloseTo(value, 9);
}

describe('chances from draws', () => {
  it('ST3: ranks, pairs and best of a set are counted, level draws shared', () => {
    expectClose(
      rankChances(merits).flatMap((row) => [...row]),
      [0.6, 0.3, 0.1, 0, 0.3, 0.6, 0, 0.1, 0.1, 0, 0.8, 0.1, 0, 0.1, 0.1, 0.8],
    );
    expect(betterChances(merits)[2]?.[3]).toBeCloseTo(0.9, 12);
    expectClose(bestChances(merits, [2, 3]), [0.9, 0.1]);
  });

  it('ST3: weights count as so many draws', () => {
    const weights = Float64Array.from([0, 0, 0, 0, 0, 0, 5, 5, 0, 0]);
    expect(bestChances({ ...merits, weights }, [0, 1])).toEqual([0, 1]);
  });

  it('ST3: an estimate is mean, SD and the quantiles between the middles of the weights', () => {
    const values = Float64Array.from({ length: 1000 }, (_, at) => (at * 617) % 1000);
    const even = drawSummary(values, new Float64Array(1000).fill(3));
    expect(even.value).toBeCloseTo(499.5, 9);
    expect(even.sd).toBeCloseTo(Math.sqrt((1000 ** 2 - 1) / 12), 6);
    expectClose([even.low, even.halfLow, even.halfHigh, even.high], [49.5, 249.5, 749.5, 949.5]);
    const lower = drawSummary(
      values,
      values.map((value) => (value < 500 ? 1 : 0)),
    );
    expect(lower.value).toBeCloseTo(249.5, 9);
    expect(lower.high).toBeCloseTo(474.5, 6);
  });
});

describe('slots in pick order', () => {
  it('ST3: a slot is close below 0.80, its candidates the smallest set holding 0.90', () => {
    const [first] = slotResults([slot('one')], source);
    expect(first?.close).toBe(true);
    expect(first?.chances.map(({ puppy }) => puppy)).toEqual(['ash', 'birch', 'cedar', 'dill']);
    expect(first?.candidates.map(({ puppy }) => puppy)).toEqual(['ash', 'birch']);
    expectClose(first?.candidates.map(({ probability }) => probability) ?? [], [0.6, 0.3]);
  });

  it('ST3: thresholds are settings', () => {
    const thresholds = { closeBelow: 0.55, candidatesHold: 0.9 };
    expect(slotResults([slot('one')], { ...source, thresholds })[0]).toMatchObject({ close: false, candidates: [] });
  });

  it('ST3: a place may ask for another chance than the settings', () => {
    const [keep, home] = slotResults([slot('one', { closeBelow: 0.9 }), slot('two', { closeBelow: 0.6 })], source);
    expect(keep).toMatchObject({ close: true, closeBelow: 0.9 });
    expect(home).toMatchObject({ close: false, closeBelow: 0.6, candidates: [] });
  });

  it('ST3: how often the candidates of a close call lie within half a step is counted draw by draw', () => {
    // Ash and birch are one point apart in all ten readings: never within half a step of 2, always within half a step of 3.
    expect(slotResults([slot('one')], source)[0]?.alike).toBe(0);
    expect(slotResults([slot('one')], { ...source, unit: 3 })[0]).toMatchObject({ alike: 1, halfStep: 1.5 });
    // With cedar too: within 2.5 points in seven readings of ten.
    const three = { ...source, unit: 5, thresholds: { closeBelow: 0.8, candidatesHold: 1 } };
    expect(slotResults([slot('one', { eligible: ['ash', 'birch', 'cedar'] })], three)[0]?.alike).toBeCloseTo(0.7, 12);
  });

  it('ST3: an open slot counts as filled by its most probable puppy, a picked one by its pick', () => {
    const open = slotResults([slot('one'), slot('two')], source);
    expect(open.map(({ filledBy }) => filledBy)).toEqual(['ash', 'birch']);
    expect(open[1]?.chances.map(({ puppy }) => puppy)).toEqual(['birch', 'cedar', 'dill']);
    const picked = slotResults([slot('one', { picked: 'cedar' }), slot('two')], source);
    expect(picked.map(({ filledBy }) => filledBy)).toEqual(['cedar', 'ash']);
    expect(picked[0]?.chances[0]?.puppy).toBe('ash');
  });

  it('ST3: what a later slot has picked is gone for an open earlier one', () => {
    const [first, second] = slotResults([slot('one'), slot('two', { picked: 'ash' })], source);
    expect(first?.chances.map(({ puppy }) => puppy)).toEqual(['birch', 'cedar', 'dill']);
    expect(second?.filledBy).toBe('ash');
  });

  it('ST1: nobody eligible is an empty answer, one eligible is no close call', () => {
    const [none, only] = slotResults([slot('one', { eligible: [] }), slot('two', { eligible: ['dill'] })], source);
    expect(none).toEqual({
      key: 'one',
      purpose: 'show',
      chances: [],
      close: false,
      closeBelow: 0.8,
      alike: 0,
      halfStep: 1,
      candidates: [],
      filledBy: null,
    });
    expect(only).toEqual({
      key: 'two',
      purpose: 'show',
      chances: [{ puppy: 'dill', probability: 1 }],
      close: false,
      closeBelow: 0.8,
      alike: 0,
      halfStep: 1,
      candidates: [],
      filledBy: 'dill',
    });
  });
});
