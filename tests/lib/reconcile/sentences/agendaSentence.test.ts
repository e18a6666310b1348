import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Flag } from '#lib/reconcile/merit/reconciliation';
import type { Panel } from '#lib/reconcile/panel/panel';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { agendaSentence } from '#lib/reconcile/sentences/agendaSentence';
import { examplePanel, questionOf } from '../examplePanel';

const panel: Panel = {
  scale: { low: 1, high: 7 },
  puppies: ['f'],
  evaluators: ['x'],
  scores: [],
  criteria: [
    { key: 'front', twoSided: false },
    { key: 'neck', twoSided: true },
  ],
};
const words = {
  panel,
  names: { f: 'Fern', x: 'the mentor', front: 'forechest', neck: 'neck carriage', bite: 'bite', one: 'place 1' },
};
const said = (flag: Flag, [now, settled] = [0.6, 0.71]) =>
  agendaSentence({ flag, slot: 'one', now, settled, gain: settled - now }, words);
const effect =
  'Settling it would be expected to make the likeliest pick for place 1 right in about 71 of 100 readings, not 60.';

it('ST4: each kind says what differs, then what to expect of settling it', () => {
  expect(said({ kind: 'closeCall', slot: 'one' })).toBe(`Place 1 is too close to call. ${effect}`);
  expect(said({ kind: 'splitOnPuppy', puppy: 'f', range: 1.54 })).toBe(
    `The seats differ on Fern as a whole, by 1.5 points once each seat’s level is allowed for. ${effect}`,
  );
  expect(said({ kind: 'splitOnCriterion', puppy: 'f', criterion: 'front', range: 3, oppositeDirections: false })).toBe(
    `The seats differ by 3 points on Fern's forechest. ${effect}`,
  );
  expect(said({ kind: 'splitOnCriterion', puppy: 'f', criterion: 'neck', range: 2, oppositeDirections: true })).toBe(
    `The seats differ by 2 steps on Fern's neck carriage, to opposite sides of what is asked. ${effect}`,
  );
  expect(said({ kind: 'stackAgainstFree', puppy: 'f', criterion: 'neck', gap: -1.5 })).toBe(
    `Fern's neck carriage was scored 1.5 steps apart stacked and standing freely. ${effect}`,
  );
  expect(said({ kind: 'splitCheck', puppy: 'f', check: 'bite' })).toBe(
    `The seats differ on Fern's bite: not all found it normal. ${effect}`,
  );
  expect(said({ kind: 'oddEvaluator', evaluator: 'x', by: 'noise' })).toBe(
    `The mentor scatters more than the others do. ${effect}`,
  );
});

it('ST4: of a close call it says which two would have to be told apart', () => {
  const item = {
    flag: { kind: 'closeCall', slot: 'one' },
    between: ['f', 'm'],
    slot: 'one',
    now: 0.5,
    settled: 0.8,
    gain: 0.3,
  } as const;
  expect(agendaSentence(item, { panel, names: { ...words.names, m: 'Moss' } })).toBe(
    'Place 1 is too close to call. Knowing for certain which of Fern and Moss is the better would be expected to make the likeliest pick for place 1 right in about 80 of 100 readings, not 50; second looks, which are never certain, bring part of that.',
  );
});

it('ST4: a gain too small to show in readings is said to be hardly any', () => {
  expect(said({ kind: 'closeCall', slot: 'one' }, [0.6, 0.603])).toBe(
    'Place 1 is too close to call. Settling it would hardly change how sure the pick for place 1 is: about 60 of 100 readings.',
  );
});

it('ST4: over simulated panels no sentence promises more than its item, nor a certainty', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 10_000 }), fc.constantFrom(0, 0.2), (seed, missing) => {
      const question = questionOf(examplePanel({ puppies: 4, evaluators: 3, oneSided: 3, twoSided: 2, missing, seed }));
      for (const item of reconcile(question).agenda) {
        const sentence = agendaSentence(item, { panel: question.panel, names: {} });
        const [after, before] = [...sentence.matchAll(/(\d+) of 100 readings(?:, not (\d+))?/g)].flatMap(([, a, b]) => [
          Number(a),
          Number(b ?? a),
        ]);
        expect(after).toBeLessThan(100);
        expect(Math.abs((after ?? NaN) / 100 - item.settled)).toBeLessThanOrEqual(0.011);
        expect(Math.abs((before ?? NaN) / 100 - item.now)).toBeLessThanOrEqual(0.011);
      }
    }),
    { numRuns: 12, seed: 4 },
  );
});
