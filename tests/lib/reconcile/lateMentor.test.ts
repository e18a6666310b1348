import { describe, expect, it } from 'vitest';
import { invariant } from '#lib/invariant';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { scaledPriors } from '#lib/reconcile/merit/scaledPriors';
import { plainMeanSentence } from '#lib/reconcile/sentences/plainMeanSentence';
import { severitySentence } from '#lib/reconcile/sentences/severitySentence';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { questionOf } from './examplePanel';

/** A mentor 1.5 points severe who joined late and missed four of nine puppies. In this litter the truly best puppy is one the mentor saw. */
const SEED = 29;
const scenario = scenarios.find(({ key }) => key === 'late');
invariant(scenario, 'the late mentor is one of the scenarios');
const litter = simulateLitter(scenario, createSeededRandom(SEED));
const question = questionOf(litter.panel);
const answer = reconcile(question);
const [result] = answer.purposes;
const [purpose] = question.purposes;
invariant(result && purpose, 'one purpose was asked about');
const best = [...litter.merit].sort((a, b) => b[1] - a[1])[0]?.[0];
const names = { puppy7: 'Moss', puppy8: 'Fern', evaluator1: 'the mentor' };

describe('the late severe mentor', () => {
  it('ST3: the plain mean puts a puppy the mentor missed first, the model the truly best one', () => {
    const plainFirst = [...result.merit].sort((a, b) => (b.mean ?? -9) - (a.mean ?? -9))[0]?.puppy;
    expect([best, plainFirst, result.merit[0]?.puppy]).toEqual(['puppy8', 'puppy7', 'puppy8']);
    const sawBy = (puppy: string) =>
      litter.panel.scores.some((score) => score.puppy === puppy && score.evaluator === 'evaluator1');
    expect([sawBy('puppy8'), sawBy('puppy7')]).toEqual([true, false]);
  });

  it('ST4: the sentence names the mentor as the cause, which the numbers bear out', () => {
    const sentence = plainMeanSentence({ panel: litter.panel, purpose, result, evaluators: answer.evaluators, names });
    expect(sentence).toMatch(
      /^The plain mean puts Moss above Fern; this order puts Fern above Moss, because the mentor, who scores about (a|one and a half) points? below the panel’s level, scored Fern and not Moss\. Fern is ahead of Moss in \d\d of 100 readings/,
    );
    const without = {
      ...litter.panel,
      scores: litter.panel.scores.filter(({ evaluator }) => evaluator !== 'evaluator1'),
    };
    const means = reconcile({ ...question, panel: without }).purposes[0]?.merit;
    const meanOf = (puppy: string) => means?.find((one) => one.puppy === puppy)?.mean ?? NaN;
    expect(meanOf('puppy8')).toBeGreaterThan(meanOf('puppy7'));
  });

  it('ST4: severity is said only where its interval leaves out zero', () => {
    for (const evaluator of answer.evaluators) {
      const { severity } = evaluator;
      invariant(!('undefined' in severity), 'four seats with scores each have a severity');
      const clear = severity.low > 0 || severity.high < 0;
      expect(severitySentence(evaluator, 'A seat').includes('no clear difference')).toBe(!clear);
    }
    expect(
      severitySentence(
        {
          evaluator: 'x',
          severity: { undefined: 'this seat gave no scores' },
          liking: { undefined: '' },
          noise: { undefined: '' },
          standsOut: { liking: 0, noise: 0 },
        },
        'the mentor',
      ),
    ).toBe('The mentor: no severity, because this seat gave no scores.');
  });

  it('ST3: priors of half and of double the scale move merits by less than a third of their SD and chances by little', () => {
    for (const factor of [0.5, 2]) {
      const other =
        reconcile(question, { ...reconcileSettings, priors: scaledPriors(meritPriors, factor) }).purposes[0]?.merit ??
        [];
      for (const { puppy, estimate, sd, ranks } of other) {
        const base = result.merit.find((one) => one.puppy === puppy);
        invariant(base, 'the same puppies');
        expect(Math.abs(estimate - base.estimate) / sd).toBeLessThan(1 / 3);
        expect(Math.abs((ranks[0] ?? NaN) - (base.ranks[0] ?? NaN))).toBeLessThan(0.1);
      }
    }
  });
});
