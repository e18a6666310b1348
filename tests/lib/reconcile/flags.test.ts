import { describe, expect, it } from 'vitest';
import { flags } from '#lib/reconcile/flags';
import type { CheckAnswer, Panel } from '#lib/reconcile/panel';
import type { Estimate, EvaluatorResult, Reconciliation } from '#lib/reconcile/reconciliation';

const about = (value: number, half: number): Estimate => ({ value, sd: half / 1.645, low: value - half, high: value + half });
const seat = (evaluator: string, given: Partial<EvaluatorResult> = {}): EvaluatorResult => ({
  evaluator, severity: about(0, 0.3), liking: about(0.4, 0.2), noise: about(0.7, 0.1), ...given,
});

function resultOf(evaluators: readonly EvaluatorResult[], close = false): Reconciliation {
  const slots = ['one', 'two'].map((key, at) => ({ key, purpose: 'show', chances: [], close: close && at === 1, candidates: [], filledBy: null }));
  return { engineVersion: '1', purposes: [], slots, evaluators, agenda: [], looks: { answers: 0, effectiveDraws: 1, draws: 1 } };
}

function panelOf(rows: readonly (readonly [puppy: string, evaluator: string, front: number, rear: number, neck: number])[]): Panel {
  const criteria = [{ key: 'front', twoSided: false }, { key: 'rear', twoSided: false }, { key: 'neck', twoSided: true }];
  const scores = rows.flatMap(([puppy, evaluator, front, rear, neck]) => [
    { puppy, evaluator, criterion: 'front', value: front },
    { puppy, evaluator, criterion: 'rear', value: rear },
    { puppy, evaluator, criterion: 'neck', value: neck },
  ]);
  return { scale: { low: 1, high: 7 }, puppies: ['fern', 'moss'], evaluators: ['x', 'y', 'z'], criteria, scores };
}

const calm = panelOf([['fern', 'x', 5, 4, 0], ['fern', 'y', 5, 5, 1], ['fern', 'z', 4, 4, 0], ['moss', 'x', 3, 4, -1], ['moss', 'y', 4, 4, 0]]);
const three = ['x', 'y', 'z'].map((key) => seat(key));

describe('flags', () => {
  it('ST3: an agreeing panel raises none', () => {
    expect(flags({ panel: calm, result: resultOf(three), checks: [] })).toEqual([]);
  });

  it('ST3: a close call names its slot', () => {
    expect(flags({ panel: calm, result: resultOf(three, true), checks: [] })).toEqual([{ kind: 'closeCall', slot: 'two' }]);
  });

  it('ST3: a split on a puppy is what remains once severity is taken off', () => {
    const panel = panelOf([['fern', 'x', 6, 6, 0], ['fern', 'y', 4, 4, 0]]);
    const evaluators = (severity: number) => [seat('x', { severity: about(severity / 2, 0.1) }), seat('y', { severity: about(-severity / 2, 0.1) }), seat('z')];
    expect(flags({ panel, result: resultOf(evaluators(0)), checks: [] })).toEqual([{ kind: 'splitOnPuppy', puppy: 'fern', range: 2 }]);
    expect(flags({ panel, result: resultOf(evaluators(1.6)), checks: [] })).toEqual([]);
  });

  it('ST3: a split on a criterion is a wide range, or opposite directions however narrow', () => {
    const panel = panelOf([['fern', 'x', 6, 3, 1], ['fern', 'y', 3, 5, -1], ['moss', 'x', 4, 4, 0], ['moss', 'y', 4, 4, 2]]);
    expect(flags({ panel, result: resultOf(three), checks: [] })).toEqual([
      { kind: 'splitOnCriterion', puppy: 'fern', criterion: 'front', range: 3, oppositeDirections: false },
      { kind: 'splitOnCriterion', puppy: 'fern', criterion: 'neck', range: 2, oppositeDirections: true },
    ]);
  });

  it('ST3: a check is split when one seat finds it normal and another does not', () => {
    const answer = (puppy: string, evaluator: string, finding: CheckAnswer['finding']): CheckAnswer => ({ puppy, check: 'bite', evaluator, finding });
    const checks = [answer('fern', 'x', 'normal'), answer('fern', 'y', 'watch'), answer('moss', 'x', 'watch'), answer('moss', 'y', 'notNormal')];
    expect(flags({ panel: calm, result: resultOf(three), checks })).toEqual([{ kind: 'splitCheck', puppy: 'fern', check: 'bite' }]);
  });

  it('ST4: one odd evaluator is named, never below three seats, never two, never within its interval', () => {
    const odd = (evaluators: readonly EvaluatorResult[]) =>
      flags({ panel: calm, result: resultOf(evaluators), checks: [] }).filter(({ kind }) => kind === 'oddEvaluator');
    const partial = seat('x', { liking: about(1.5, 0.6) });
    expect(odd([partial, seat('y'), seat('z')])).toEqual([{ kind: 'oddEvaluator', evaluator: 'x', by: 'liking' }]);
    expect(odd([seat('x', { severity: about(-1.6, 0.4) }), seat('y'), seat('z')])).toEqual([{ kind: 'oddEvaluator', evaluator: 'x', by: 'severity' }]);
    expect(odd([partial, seat('y')])).toEqual([]);
    expect(odd([partial, seat('y', { noise: about(2, 0.2) }), seat('z')])).toEqual([]);
    expect(odd([seat('x', { liking: about(1.5, 1.2) }), seat('y'), seat('z')])).toEqual([]);
    const silent = { undefined: 'this seat gave no scores' };
    expect(odd([partial, seat('y'), { evaluator: 'z', severity: silent, liking: silent, noise: silent }])).toEqual([]);
  });
});
