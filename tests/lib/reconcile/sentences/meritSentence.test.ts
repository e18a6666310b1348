import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PurposeResult, SlotResult } from '#lib/reconcile/merit/reconciliation';
import { closeCallSentence } from '#lib/reconcile/sentences/closeCallSentence';
import { meritSentence } from '#lib/reconcile/sentences/meritSentence';
import { pairSentence } from '#lib/reconcile/sentences/pairSentence';
import { readings } from '#lib/reconcile/sentences/readings';
import { severitySentence } from '#lib/reconcile/sentences/severitySentence';

const names = { f: 'Fern', m: 'Moss', s: 'Sorrel' };

function resultOf(firsts: Readonly<Record<string, number>>): PurposeResult {
  const merit = Object.entries(firsts).map(([puppy, first]) => ({
    puppy,
    estimate: first,
    sd: 1,
    low: 0,
    high: 0,
    halfLow: 0,
    halfHigh: 0,
    mean: 0,
    ranks: [first, 1 - first],
  }));
  return {
    key: 'show',
    merit,
    better: { f: { m: 0.612 }, m: { f: 0.388 } },
    level: { value: 4, sd: 1, low: 3, high: 5 },
  };
}

describe('readings of 100', () => {
  it('ST4: never all and never none', () => {
    expect([1, 0.996, 0.994, 0.6049, 0.0049, 0].map((chance) => readings(chance))).toEqual([
      'at least 99',
      'at least 99',
      '99',
      '60',
      'fewer than 1',
      'fewer than 1',
    ]);
  });

  it('ST4: a chance below the close-call mark is never rounded up to it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.8, maxExcluded: true, noNaN: true }), (chance) => {
        const said = readings(chance);
        expect(said === 'fewer than 1' || Number(said) <= 79).toBe(true);
      }),
    );
  });
});

describe('first place', () => {
  it('ST4: names the first and its nearest rival when it is close', () => {
    expect(meritSentence(resultOf({ f: 0.6, m: 0.31, s: 0.09 }), names)).toBe(
      'Fern comes first in 60 of 100 readings of these scores, Moss in 31: too close to call.',
    );
  });

  it('ST4: says the share plainly when it is not close, and never certainty', () => {
    expect(meritSentence(resultOf({ f: 0.93, m: 0.07 }), names)).toBe(
      'Fern comes first in 93 of 100 readings of these scores.',
    );
    expect(meritSentence(resultOf({ f: 1, m: 0 }), names)).toBe(
      'Fern comes first in at least 99 of 100 readings of these scores.',
    );
  });

  it('ST1: one puppy or none has no order', () => {
    expect(meritSentence(resultOf({ f: 1 }), names)).toBe('Fern is the only puppy, so there is no order to make.');
    expect(meritSentence(resultOf({}), names)).toBe('There is no puppy to put in order.');
  });

  it('ST4: a pair is told from the likelier side, whichever way it is asked', () => {
    const said = 'Fern is ahead of Moss in 61 of 100 readings of these scores: too close to call.';
    expect(pairSentence(resultOf({ f: 1 }), ['f', 'm'], names)).toBe(said);
    expect(pairSentence(resultOf({ f: 1 }), ['m', 'f'], names)).toBe(said);
  });
});

describe('close call', () => {
  const slot: SlotResult = {
    key: 'one',
    purpose: 'show',
    chances: [],
    close: false,
    closeBelow: 0.8,
    alike: 0,
    halfStep: 0.5,
    candidates: [],
    filledBy: null,
  };
  const chances = [
    { puppy: 'f', probability: 0.6 },
    { puppy: 'm', probability: 0.31 },
    { puppy: 's', probability: 0.09 },
  ];

  it('ST4: lists the candidates with their readings', () => {
    expect(closeCallSentence({ ...slot, chances, close: true, candidates: chances }, names)).toBe(
      'Too close to call between Fern (60 of 100 readings), Moss (31) and Sorrel (9).',
    );
  });

  it('ST4: a clear slot, a single eligible puppy and none at all', () => {
    const clear = [
      { puppy: 'm', probability: 0.97 },
      { puppy: 'f', probability: 0.03 },
    ];
    expect(closeCallSentence({ ...slot, chances: clear }, names)).toBe(
      'Moss is the best of those eligible in 97 of 100 readings of these scores.',
    );
    expect(closeCallSentence({ ...slot, chances: [{ puppy: 'm', probability: 1 }] }, names)).toBe(
      'Moss is the only puppy eligible for this place.',
    );
    expect(closeCallSentence(slot, names)).toBe('No eligible puppy is left for this place.');
  });
});

describe('severity', () => {
  const evaluator = (value: number, low: number, high: number) => ({
    evaluator: 'e',
    severity: { value, sd: 1, low, high },
    liking: { undefined: 'x' },
    noise: { undefined: 'x' },
    standsOut: { liking: 0, noise: 0 },
  });

  it('ST4: gives size and direction only when the interval excludes zero', () => {
    expect(severitySentence(evaluator(-1.1, -1.6, -0.6), 'the mentor')).toBe(
      'The mentor scores about a point below the panel’s level (0.6 to 1.6 in 90 of 100 readings).',
    );
    expect(severitySentence(evaluator(0.4, 0.1, 0.7), 'the owner')).toBe(
      'The owner scores about half a point above the panel’s level (0.1 to 0.7 in 90 of 100 readings).',
    );
    expect(severitySentence(evaluator(-0.4, -0.9, 0.1), 'the mentor')).toBe(
      'The mentor: no clear difference from the panel’s level.',
    );
  });
});
