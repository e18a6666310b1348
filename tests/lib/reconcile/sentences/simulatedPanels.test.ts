import { expect, it } from 'vitest';
import { reconcile, reconcileSettings } from '#lib/reconcile/reconcile';
import type { Reconciliation } from '#lib/reconcile/reconciliation';
import { closeCallSentence } from '#lib/reconcile/sentences/closeCallSentence';
import { meritSentence } from '#lib/reconcile/sentences/meritSentence';
import { severitySentence } from '#lib/reconcile/sentences/severitySentence';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { questionOf } from '../examplePanel';

const light = { ...reconcileSettings, sampling: { points: 60, pairs: 250 } };
const answers: Reconciliation[] = scenarios.map((scenario, at) => {
  const { panel } = simulateLitter(scenario, createSeededRandom(900 + at));
  const question = questionOf(panel);
  const slots = [{ key: 'first', purpose: question.purposes[0]?.key ?? '', eligible: panel.puppies, picked: null }];
  return reconcile({ ...question, slots }, light);
});

/** Every "N of 100" or bare count of a sentence, with "at least 99" and "fewer than 1" as what they say. */
const counts = (sentence: string) => [...sentence.matchAll(/(?<!\.)\b(\d+)(?= of 100|:|\)|\.$)/g)].map(([, count]) => Number(count));

it('ST4: over simulated panels a first place is called only from 80 readings up, and no reading is all or none', () => {
  for (const answer of answers) {
    for (const purpose of answer.purposes) {
      const sentence = meritSentence(purpose, {});
      const first = Math.max(...purpose.merit.map((merit) => merit.ranks[0] ?? 0));
      expect(sentence.includes('too close to call')).toBe(first < 0.8);
      expect(counts(sentence).every((count) => count >= 1 && count <= 99)).toBe(true);
      expect(Math.abs((counts(sentence)[0] ?? 0) / 100 - first)).toBeLessThanOrEqual(0.011);
    }
  }
});

it('ST4: over simulated panels a close call names its candidates and no more', () => {
  for (const answer of answers) {
    for (const slot of answer.slots) {
      const sentence = closeCallSentence(slot, {});
      expect(sentence.startsWith('Too close to call')).toBe(slot.close);
      const named = slot.chances.filter(({ puppy }) => new RegExp(`\\b${puppy}\\b`, 'i').test(sentence)).map(({ puppy }) => puppy);
      expect(named).toEqual(slot.close ? slot.candidates.map(({ puppy }) => puppy) : slot.chances.slice(0, 1).map(({ puppy }) => puppy));
      expect(counts(sentence).every((count) => count >= 1 && count <= 99)).toBe(true);
    }
  }
});

it('ST4: over simulated panels a seat is called severe or mild only where the whole interval is, and both kinds occur', () => {
  const said = answers.flatMap((answer) =>
    answer.evaluators.map((evaluator) => {
      const sentence = severitySentence(evaluator, evaluator.evaluator);
      const { severity } = evaluator;
      if ('undefined' in severity) throw new Error('every simulated seat scored');
      expect(sentence.includes(' below ')).toBe(severity.high < 0);
      expect(sentence.includes(' above ')).toBe(severity.low > 0);
      return sentence.includes('no clear difference');
    }),
  );
  expect(new Set(said).size).toBe(2);
});
