import { describe, expect, it } from 'vitest';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { robustness } from '#lib/reconcile/merit/robustness';
import {
  priorsSentence,
  reversedSentence,
  settlingSentence,
  withoutSentence,
} from '#lib/reconcile/sentences/robustnessSentences';
import { examplePanel, questionOf } from '../examplePanel';

const panel = examplePanel({ puppies: 5, evaluators: 3, oneSided: 4, twoSided: 2, missing: 0, seed: 12 });
const question = {
  ...questionOf(panel),
  slots: [{ key: 'first', purpose: 'show', eligible: panel.puppies, picked: null, closeBelow: 0.95 }],
};
const quick = { ...reconcileSettings, sampling: { points: 40, pairs: 100 } };
const found = robustness(question, quick);

describe('what else the numbers might have been', () => {
  it('ST3: the chance of the likeliest puppy lies within what halved and doubled priors give', () => {
    const [slot] = reconcile(question, quick).slots;
    const [range] = found.priors;
    expect(range?.puppy).toBe(slot?.chances[0]?.puppy);
    expect(range?.low).toBeLessThanOrEqual(slot?.chances[0]?.probability ?? NaN);
    expect(range?.high).toBeGreaterThanOrEqual(slot?.chances[0]?.probability ?? NaN);
    expect((range?.high ?? NaN) - (range?.low ?? NaN)).toBeGreaterThan(0);
  });

  it('ST3: the order without a seat is that of the panel in which it gave no scores', () => {
    expect(found.without.map(({ evaluator }) => evaluator)).toEqual(panel.evaluators);
    const left = {
      ...question,
      panel: { ...panel, scores: panel.scores.filter(({ evaluator }) => evaluator !== 'seat2') },
    };
    const order = reconcile(left, quick).purposes[0]?.merit.map(({ puppy }) => puppy);
    expect(found.without[1]?.orders).toEqual([{ purpose: 'show', puppies: order }]);
  });

  it('ST1: of two seats none is left out; a settled or picked place has nothing to settle', () => {
    const two = {
      ...question,
      panel: { ...panel, scores: panel.scores.filter(({ evaluator }) => evaluator !== 'seat3') },
    };
    expect(robustness(two, quick).without).toEqual([]);
    const picked = { ...question, slots: question.slots.map((slot) => ({ ...slot, picked: 'puppy1' })) };
    expect(robustness(picked, quick).settling).toEqual([]);
    expect(robustness({ ...question, panel: { ...panel, scores: [] } }, quick).without).toEqual([]);
  });

  it('ST3: shares of settling lie between none and all, and a place that asks for less is settled more often', () => {
    const [strict] = found.settling;
    for (const share of [strict?.evaluator, strict?.look]) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(1);
    }
    const now = reconcile(question, quick).slots[0]?.chances[0]?.probability ?? NaN;
    const barely = {
      ...question,
      slots: question.slots.map((slot) => ({ ...slot, closeBelow: Math.min(0.99, now + 0.02) })),
    };
    expect(robustness(barely, quick).settling[0]?.evaluator).toBeGreaterThanOrEqual((strict?.evaluator ?? NaN) - 0.1);
  });

  it('ST2: the same question has the same answer', () => {
    expect(robustness(question, quick)).toEqual(found);
  });
});

describe('what is said of it', () => {
  const names = { f: 'Fern', m: 'Moss', two: 'place 2', v: 'the vet' };
  it('ST4: ranges, shares and changes as they are, and nothing where nothing changes', () => {
    expect(priorsSentence({ slot: 'two', puppy: 'f', low: 0.721, high: 0.834 }, names)).toBe(
      'Place 2: with all assumed spreads halved or doubled, Fern is the best of those eligible in 72 to 83 of 100 readings.',
    );
    expect(priorsSentence({ slot: 'two', puppy: 'f', low: 0.724, high: 0.72 }, names)).toContain(
      'in 72 of 100 readings as well',
    );
    expect(settlingSentence({ slot: 'two', evaluator: 0.31, look: 0.12, cases: 200 }, names)).toBe(
      'One more evaluator who scores all puppies on every criterion would settle place 2 in about 31 of 100 cases, one look by every seat at the two likeliest in about 12 (200 cases drawn).',
    );
    const without = {
      evaluator: 'v',
      orders: [{ purpose: 'show', puppies: ['m', 'f'] }],
      slots: [{ slot: 'two', puppy: 'm', probability: 0.55 }],
    };
    const now = (puppies: readonly string[], puppy: string) => ({
      orders: [{ purpose: 'show', puppies }],
      slots: [{ slot: 'two', puppy }],
    });
    expect(withoutSentence(without, now(['f', 'm'], 'f'), names)).toBe(
      'Without the vet the order is Moss and Fern; place 2 would lean to Moss (55 of 100 readings).',
    );
    expect(withoutSentence(without, now(['m', 'f'], 'f'), names)).toBe(
      'Without the vet place 2 would lean to Moss (55 of 100 readings).',
    );
    expect(withoutSentence(without, now(['m', 'f'], 'm'), names)).toBe('Without the vet the order stays as it is.');
    expect(reversedSentence({ evaluator: 'v', criterion: 'ears', correlation: -0.9, puppies: 8 }, names)).toBe(
      'The vet ordered the 8 puppies on ears against all the others, who agree among themselves: were the two ends of the scale taken for each other?',
    );
  });
});
