import { describe, expect, it } from 'vitest';
import { flags } from '#lib/reconcile/talk/flags';
import type { CheckAnswer, Panel } from '#lib/reconcile/panel/panel';
import type { Estimate, EvaluatorResult, Reconciliation } from '#lib/reconcile/merit/reconciliation';

const about = (value: number, half: number): Estimate => ({
  value,
  sd: half / 1.645,
  low: value - half,
  high: value + half,
});
const seat = (evaluator: string, given: Partial<EvaluatorResult> = {}): EvaluatorResult => ({
  evaluator,
  severity: about(0, 0.3),
  liking: about(0.4, 0.2),
  noise: about(0.7, 0.1),
  standsOut: { liking: 0, noise: 0 },
  ...given,
});

function resultOf(evaluators: readonly EvaluatorResult[], close = false): Reconciliation {
  const slots = ['one', 'two'].map((key, at) => ({
    key,
    purpose: 'show',
    chances: [],
    close: close && at === 1,
    closeBelow: 0.8,
    alike: 0,
    halfStep: 0.5,
    candidates: [],
    filledBy: null,
  }));
  return { engineVersion: '1', purposes: [], slots, evaluators, agenda: [], looks: { answers: 0 } };
}

function panelOf(
  rows: readonly (readonly [puppy: string, evaluator: string, front: number, rear: number, neck: number])[],
): Panel {
  const criteria = [
    { key: 'front', twoSided: false },
    { key: 'rear', twoSided: false },
    { key: 'neck', twoSided: true },
  ];
  const scores = rows.flatMap(([puppy, evaluator, front, rear, neck]) => [
    { puppy, evaluator, criterion: 'front', value: front },
    { puppy, evaluator, criterion: 'rear', value: rear },
    { puppy, evaluator, criterion: 'neck', value: neck },
  ]);
  return { scale: { low: 1, high: 7 }, puppies: ['fern', 'moss'], evaluators: ['x', 'y', 'z'], criteria, scores };
}

const calm = panelOf([
  ['fern', 'x', 5, 4, 0],
  ['fern', 'y', 5, 5, 1],
  ['fern', 'z', 4, 4, 0],
  ['moss', 'x', 3, 4, -1],
  ['moss', 'y', 4, 4, 0],
]);
const three = ['x', 'y', 'z'].map((key) => seat(key));

describe('flags', () => {
  it('ST3: an agreeing panel raises none', () => {
    expect(flags({ panel: calm, result: resultOf(three), checks: [] })).toEqual([]);
  });

  it('ST3: a close call names its slot', () => {
    expect(flags({ panel: calm, result: resultOf(three, true), checks: [] })).toEqual([
      { kind: 'closeCall', slot: 'two' },
    ]);
  });

  /** Six puppies by three seats who agree to a point, z harder by two throughout; what `told` says of fern and moss instead. */
  function litter(told: Readonly<Record<string, readonly [front: number, rear: number, neck: number]>>): Panel {
    const rows = ['fern', 'moss', 'sage', 'thyme', 'rue', 'yarrow'].flatMap((puppy, p) =>
      ['x', 'y', 'z'].map((evaluator, j) => {
        const level = 5 - (evaluator === 'z' ? 2 : 0);
        const [front, rear, neck] = told[`${puppy} ${evaluator}`] ?? [
          level + ((p + j) % 2),
          level + ((p * j) % 2),
          ((p + 2 * j) % 3) - 1,
        ];
        return [puppy, evaluator, front, rear, neck] as const;
      }),
    );
    return { ...panelOf(rows), puppies: ['fern', 'moss', 'sage', 'thyme', 'rue', 'yarrow'] };
  }
  const raised = (panel: Panel) => flags({ panel, result: resultOf(three), checks: [] });

  it('ST3: a seat that is harder throughout splits nothing', () => {
    expect(raised(litter({}))).toEqual([]);
  });

  it("ST3: a split on a puppy is what remains once the seats' levels are taken off", () => {
    const split = raised(litter({ 'fern x': [7, 7, 0], 'fern y': [3, 3, 0] })).filter(
      ({ kind }) => kind === 'splitOnPuppy',
    );
    expect(split).toMatchObject([{ kind: 'splitOnPuppy', puppy: 'fern' }]);
  });

  it('ST3: a split on a criterion is a cell in which the seats part as they hardly do elsewhere, opposite directions told', () => {
    const found = raised(
      litter({ 'fern x': [7, 5, 0], 'fern y': [3, 6, 0], 'moss x': [5, 5, 3], 'moss y': [5, 6, -3] }),
    ).filter(({ kind }) => kind === 'splitOnCriterion');
    expect(new Set(found.map((flag) => ('criterion' in flag ? `${flag.puppy} ${flag.criterion}` : '')))).toEqual(
      new Set(['fern front', 'moss neck']),
    );
    expect(found).toContainEqual({
      kind: 'splitOnCriterion',
      puppy: 'moss',
      criterion: 'neck',
      range: 6,
      oppositeDirections: true,
    });
    expect(found).toContainEqual({
      kind: 'splitOnCriterion',
      puppy: 'fern',
      criterion: 'front',
      range: 4,
      oppositeDirections: false,
    });
  });

  it('ST3: a check is split when one seat finds it normal and another does not', () => {
    const answer = (puppy: string, evaluator: string, finding: CheckAnswer['finding']): CheckAnswer => ({
      puppy,
      check: 'bite',
      evaluator,
      finding,
    });
    const checks = [
      answer('fern', 'x', 'normal'),
      answer('fern', 'y', 'watch'),
      answer('moss', 'x', 'watch'),
      answer('moss', 'y', 'notNormal'),
    ];
    expect(flags({ panel: calm, result: resultOf(three), checks })).toEqual([
      { kind: 'splitCheck', puppy: 'fern', check: 'bite' },
    ]);
  });

  it('ST4: one odd evaluator is named, never below three seats, never two, never within its interval', () => {
    const odd = (evaluators: readonly EvaluatorResult[]) =>
      flags({ panel: calm, result: resultOf(evaluators), checks: [] }).filter(({ kind }) => kind === 'oddEvaluator');
    const partial = seat('x', { liking: about(1.5, 0.6), standsOut: { liking: 0.7, noise: 0 } });
    expect(odd([partial, seat('y'), seat('z')])).toEqual([{ kind: 'oddEvaluator', evaluator: 'x', by: 'liking' }]);
    expect(odd([seat('x', { severity: about(-1.6, 0.4) }), seat('y'), seat('z')])).toEqual([
      { kind: 'oddEvaluator', evaluator: 'x', by: 'severity' },
    ]);
    expect(odd([partial, seat('y')])).toEqual([]);
    expect(
      odd([partial, seat('y', { noise: about(2, 0.2), standsOut: { liking: 0, noise: 0.95 } }), seat('z')]),
    ).toEqual([]);
    expect(
      odd([seat('x', { liking: about(1.5, 1.2), standsOut: { liking: 0.5, noise: 0 } }), seat('y'), seat('z')]),
    ).toEqual([]);
    const silent = { undefined: 'this seat gave no scores' };
    expect(
      odd([
        partial,
        seat('y'),
        { evaluator: 'z', severity: silent, liking: silent, noise: silent, standsOut: { liking: 0, noise: 0 } },
      ]),
    ).toEqual([]);
  });
});
