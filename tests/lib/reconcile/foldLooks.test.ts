import { describe, expect, it } from 'vitest';
import { answerChance } from '#lib/reconcile/lookLikelihood';
import { lookSettings } from '#lib/reconcile/lookSettings';
import type { LookAnswer } from '#lib/reconcile/panel';
import { reconcile, reconcileSettings, type ReconcileSettings } from '#lib/reconcile/reconcile';
import { examplePanel, questionOf } from './examplePanel';

const panel = examplePanel({ puppies: 5, evaluators: 3, oneSided: 5, twoSided: 1, missing: 0.1, seed: 2 });
const question = questionOf(panel);
const order = (reconcile(question).purposes[0]?.merit ?? []).map(({ puppy }) => puppy);
const [first = '', second = '', third = ''] = order;
const last = order.at(-1) ?? '';

function look(evaluator: string, pair: readonly [string, string], choice: LookAnswer['choice'] = 'first'): LookAnswer {
  return { evaluator, purpose: 'show', first: pair[0], second: pair[1], choice };
}

function folded(looks: readonly LookAnswer[], settings: ReconcileSettings = reconcileSettings) {
  const answer = reconcile({ ...question, looks }, settings);
  const merit = answer.purposes[0]?.merit ?? [];
  return {
    looks: answer.looks,
    better: (a: string, b: string) => answer.purposes[0]?.better[a]?.[b] ?? NaN,
    of: (puppy: string) => merit.find((one) => one.puppy === puppy) ?? { estimate: NaN, sd: NaN },
  };
}

const with_ = (looks: Partial<ReconcileSettings['looks']>, sampling = reconcileSettings.sampling): ReconcileSettings => ({
  ...reconcileSettings, sampling, looks: { ...lookSettings, ...looks },
});

describe('one answer', () => {
  it('ST3: the three chances sum to one, mirror each other, and match the normal table', () => {
    for (const gap of [-3, -0.4, 0, 0.1, 2, 40]) {
      const chance = (choice: LookAnswer['choice'], at = gap) => answerChance(choice, at, lookSettings);
      expect(chance('first') + chance('second') + chance('tie')).toBeCloseTo(1, 12);
      expect(chance('first')).toBeCloseTo(chance('second', -gap), 14);
    }
    // Φ(1) = 0.8413447 (table of the normal distribution): gap 0.95, tie half-width 0.25, noise SD 0.7.
    expect(answerChance('first', 0.95, lookSettings)).toBeCloseTo(0.8413447461, 9);
  });
});

describe('looks folded into the scores', () => {
  it('ST3: no look leaves every draw alike; a look moves the pair the way it was answered', () => {
    const before = folded([]);
    expect(before.looks).toEqual({ answers: 0, effectiveDraws: 2500, draws: 2500 });
    const after = folded([look('seat1', [second, first])]);
    expect(after.better(second, first)).toBeGreaterThan(before.better(second, first) + 0.02);
    expect(after.looks.answers).toBe(1);
    expect(after.looks.effectiveDraws).toBeLessThan(2500);
    const turned = folded([look('seat1', [first, second], 'second')]);
    expect(turned.better(second, first)).toBeCloseTo(after.better(second, first), 12);
  });

  it('ST3: a tie pulls two puppies together', () => {
    const [before, after] = [folded([]), folded(['seat1', 'seat2', 'seat3'].map((seat) => look(seat, [first, last], 'tie')))];
    expect(after.of(first).estimate - after.of(last).estimate).toBeLessThan(before.of(first).estimate - before.of(last).estimate);
  });

  it('ST3: a seat that has not scored the pair weighs more than one whose liking the scores already hold', () => {
    const scores = panel.scores.filter(({ evaluator, puppy }) => evaluator !== 'seat3' || (puppy !== first && puppy !== second));
    const moved = (seat: string) => {
      const run = (looks: readonly LookAnswer[]) => reconcile({ ...questionOf({ ...panel, scores }), looks }).purposes[0]?.better[second]?.[first] ?? NaN;
      return run([look(seat, [second, first])]) - run([]);
    };
    const favours = (seat: string) => {
      const total = (puppy: string) => scores.filter((score) => score.evaluator === seat && score.puppy === puppy).reduce((sum, { value }) => sum + value, 0);
      return total(second) - total(first);
    };
    // Of the two seats that scored the pair, the one whose scores favour the answer most: its look is the least news.
    const expectedAnswer = ['seat1', 'seat2'].sort((a, b) => favours(b) - favours(a))[0] ?? '';
    expect(moved('seat3')).toBeGreaterThan(moved(expectedAnswer));
  });

  it('ST2: the order of the answers does not matter', () => {
    const looks = [look('seat1', [second, first]), look('seat2', [first, third], 'tie'), look('stranger', [third, first])];
    expect(folded([...looks].reverse()).of(first)).toEqual(folded(looks).of(first));
  });

  it('ST1: a seat that scored nothing, and a panel without scores, take looks too', () => {
    const empty = { ...panel, scores: [] };
    const answer = reconcile({ ...questionOf(empty), looks: [look('stranger', [first, second]), look('seat1', [first, second])] });
    expect(answer.purposes[0]?.better[first]?.[second]).toBeGreaterThan(0.6);
    expect(answer.purposes[0]?.merit.every(({ estimate }) => Number.isFinite(estimate))).toBe(true);
  });
});

describe('when reweighting is not enough', () => {
  const mild = [look('seat1', [second, first]), look('stranger', [third, first]), look('seat2', [last, first], 'tie')];

  it('ST3: moved draws and plain reweighting of many draws agree', () => {
    const reweighted = folded(mild, with_({ leastEffective: 0 }, { points: 240, pairs: 6000 }));
    const moved = folded(mild, with_({ leastEffective: Infinity }));
    expect(reweighted.looks.effectiveDraws).toBeGreaterThan(1000);
    for (const puppy of order) {
      expect(Math.abs(moved.of(puppy).estimate - reweighted.of(puppy).estimate)).toBeLessThan(0.2 * reweighted.of(puppy).sd);
      expect(moved.of(puppy).sd / reweighted.of(puppy).sd).toBeCloseTo(1, 0);
    }
    expect(Math.abs(moved.better(second, first) - reweighted.better(second, first))).toBeLessThan(0.07);
  });

  it('ST3: looks that contradict the scores trigger moves, and a bare few draws never carry the answer', () => {
    const stubborn = ['seat1', 'seat2', 'seat3', 'stranger'].flatMap((seat) =>
      order.slice(0, -1).flatMap((puppy) => [look(seat, [last, puppy]), look(seat, [last, puppy])]),
    );
    const answer = folded(stubborn);
    expect(answer.looks).toMatchObject({ draws: 500, effectiveDraws: 500 });
    expect(answer.better(last, first)).toBeGreaterThan(folded([]).better(last, first) + 0.3);
  });
});
