import { expect, it } from 'vitest';
import { reconcile, reconcileSettings } from '#lib/reconcile/reconcile';
import type { Reconciliation } from '#lib/reconcile/reconciliation';
import { closeCallSentence } from '#lib/reconcile/sentences/closeCallSentence';
import { meritSentence } from '#lib/reconcile/sentences/meritSentence';
import { plainMeanSentence } from '#lib/reconcile/sentences/plainMeanSentence';
import { severitySentence } from '#lib/reconcile/sentences/severitySentence';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { questionOf } from '../examplePanel';

const light = { ...reconcileSettings, sampling: { points: 60, pairs: 250 } };
const questions = scenarios.map((scenario, at) => questionOf(simulateLitter(scenario, createSeededRandom(900 + at)).panel));
const answers: Reconciliation[] = questions.map((question) => reconcile(question, light));

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

it('ST4: over simulated panels the order is told as the plain mean’s where the two orders are the same and cards complete, and nowhere else', () => {
  const said = answers.map(({ purposes: [result], evaluators }, at) => {
    const { panel, purposes: [purpose] } = questions[at] ?? questionOf({ scale: { low: 1, high: 7 }, puppies: [], evaluators: [], criteria: [], scores: [] });
    if (!result || !purpose) throw new Error('one purpose was asked about');
    const sentence = plainMeanSentence({ panel, purpose, result, evaluators, names: {} });
    const means = result.merit.map(({ mean }) => mean ?? 0);
    // Rounded, since means that are level differ in the last bits.
    const falls = means.slice(1).every((mean, behind) => mean < (means[behind] ?? 0) - 1e-9);
    const neverRises = means.slice(1).every((mean, behind) => mean <= (means[behind] ?? 0) + 1e-9);
    expect(sentence.includes('gives the same order') || sentence.includes('is the plain mean’s')).toBe(neverRises);
    expect(sentence.includes('for equal')).toBe(neverRises && !falls);
    const complete = panel.scores.length === panel.puppies.length * panel.evaluators.length * panel.criteria.length;
    if (sentence.includes('is the plain mean’s')) expect([falls, complete]).toEqual([true, true]);
    return sentence.includes('is the plain mean’s');
  });
  expect(new Set(said).size).toBe(2);
});
