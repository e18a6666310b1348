import { expect, it } from 'vitest';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import type { Reconciliation } from '#lib/reconcile/merit/reconciliation';
import { closeCallSentence } from '#lib/reconcile/sentences/closeCallSentence';
import { meritSentence } from '#lib/reconcile/sentences/meritSentence';
import { plainMeanSentence } from '#lib/reconcile/sentences/plainMeanSentence';
import { severitySentence } from '#lib/reconcile/sentences/severitySentence';
import { drawnScenario } from '#lib/reconcile/calibration/drawnScenario';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { fullSize } from '#tests/support/faultSize';
import { questionOf } from '../examplePanel';

const light = { ...reconcileSettings, sampling: { points: 60, pairs: 250 } };
/** One panel of each kind; at full size 2,000, their SDs drawn from the written spread. */
const litters = Array.from({ length: fullSize ? 2000 : scenarios.length }, (_, at) => {
  const random = createSeededRandom(900 + at);
  const scenario = scenarios[at % scenarios.length] ?? expect.fail();
  return {
    ...simulateLitter(fullSize ? drawnScenario(scenario, random) : scenario, random),
    seen: scenario.unseen !== true,
  };
});
const questions = litters.map(({ panel }) => questionOf(panel));
const answers: Reconciliation[] = questions.map((question) => reconcile(question, light));

/** Every "N of 100" or bare count of a sentence, with "at least 99" and "fewer than 1" as what they say. */
const counts = (sentence: string) =>
  [...sentence.matchAll(/(?<!\.)\b(\d+)(?= of 100|:|\)|\.$)/g)].map(([, count]) => Number(count));

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
      const named = slot.chances
        .filter(({ puppy }) => new RegExp(`\\b${puppy}\\b`, 'i').test(sentence))
        .map(({ puppy }) => puppy);
      expect(named).toEqual(
        slot.close ? slot.candidates.map(({ puppy }) => puppy) : slot.chances.slice(0, 1).map(({ puppy }) => puppy),
      );
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
    const {
      panel,
      purposes: [purpose],
    } =
      questions[at] ??
      questionOf({ scale: { low: 1, high: 7 }, puppies: [], evaluators: [], criteria: [], scores: [] });
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

/** Told and right, by tenths of what was told; panels whose fault the scores cannot show are left out. */
function byTenths(told: readonly { readonly chance: number; readonly right: boolean }[]) {
  return Array.from({ length: 10 }, (_, tenth) =>
    told.filter(({ chance }) => Math.min(9, Math.floor(10 * chance)) === tenth),
  ).flatMap((list) => {
    const mean = (of: (one: { readonly chance: number; readonly right: boolean }) => number) =>
      list.reduce((sum, one) => sum + of(one), 0) / list.length;
    const [claimed, right] = [mean(({ chance }) => chance), mean((one) => (one.right ? 1 : 0))];
    return list.length < 30
      ? []
      : [
          {
            count: list.length,
            claimed,
            right,
            gap: claimed - right,
            margin: 0.02 + 2 * Math.sqrt((claimed * (1 - claimed)) / list.length),
          },
        ];
  });
}

if (fullSize) {
  const bestOf = (merit: ReadonlyMap<string, number>) => [...merit].sort(([, one], [, other]) => other - one)[0]?.[0];

  it('ST4: over 2,000 simulated panels the first is the best as often as the sentence says', () => {
    const told = litters.flatMap(({ merit, seen }, at) => {
      const [result] = answers[at]?.purposes ?? [];
      const [first] = [...(result?.merit ?? [])].sort((one, other) => (other.ranks[0] ?? 0) - (one.ranks[0] ?? 0));
      const [count = 0] = result ? counts(meritSentence(result, {})) : [];
      return seen && first ? [{ chance: count / 100, right: first.puppy === bestOf(merit) }] : [];
    });
    const tenths = byTenths(told);
    process.stderr.write(`first places, told and right by tenths: ${JSON.stringify(tenths)}\n`);
    for (const { gap, margin } of tenths) expect(Math.abs(gap)).toBeLessThanOrEqual(margin);
  });

  it('ST4: over 2,000 simulated panels who is told ahead of another is so as often as told', () => {
    const told = litters.flatMap(({ merit, seen }, at) =>
      Object.entries(answers[at]?.purposes[0]?.better ?? {}).flatMap(([puppy, row]) =>
        Object.entries(row).flatMap(([other, chance]) =>
          seen && puppy < other
            ? [
                {
                  chance: Math.max(chance, 1 - chance),
                  right: (merit.get(puppy) ?? 0) > (merit.get(other) ?? 0) === chance >= 0.5,
                },
              ]
            : [],
        ),
      ),
    );
    const tenths = byTenths(told);
    process.stderr.write(`pairs, told and right by tenths: ${JSON.stringify(tenths)}\n`);
    for (const { gap, margin } of tenths) expect(Math.abs(gap)).toBeLessThanOrEqual(margin);
  });

  it('ST4: over 2,000 simulated panels a seat told severe or mild is so, by the interval it is told by', () => {
    const told = litters.flatMap(({ panel, severity, seen }, at) =>
      (answers[at]?.evaluators ?? []).flatMap((evaluator) => {
        const sorted = severity.toSorted((one, other) => one - other);
        const middle =
          ((sorted[Math.ceil(sorted.length / 2) - 1] ?? 0) + (sorted[Math.floor(sorted.length / 2)] ?? 0)) / 2;
        const sentence = severitySentence(evaluator, evaluator.evaluator);
        const sign = sentence.includes(' below ') ? -1 : sentence.includes(' above ') ? 1 : 0;
        return seen && sign !== 0
          ? [sign * ((severity[panel.evaluators.indexOf(evaluator.evaluator)] ?? 0) - middle) > 0]
          : [];
      }),
    );
    const right = told.filter(Boolean).length / told.length;
    process.stderr.write(`seats told severe or mild: ${told.length}, right ${right.toFixed(3)}\n`);
    expect(right).toBeGreaterThanOrEqual(0.95 - 0.02 - 2 * Math.sqrt((0.95 * 0.05) / told.length));
  });
}
