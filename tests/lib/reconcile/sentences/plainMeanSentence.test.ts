import { describe, expect, it } from 'vitest';
import type { Panel, PurposeQuestion } from '#lib/reconcile/panel/panel';
import type { Estimate, EvaluatorResult, Merit, PurposeResult } from '#lib/reconcile/merit/reconciliation';
import { plainMeanSentence } from '#lib/reconcile/sentences/plainMeanSentence';

const names = { f: 'Fern', m: 'Moss', s: 'Sorrel', v: 'the vet', o: 'the owner', h: 'the handler' };
const purpose: PurposeQuestion = { key: 'show', weights: { front: 1, rear: 1 } };
const about = (value: number, half = 0.1): Estimate => ({
  value,
  sd: half / 1.645,
  low: value - half,
  high: value + half,
});

function panelOf(cells: Readonly<Record<string, readonly [number, number]>>): Panel {
  const scores = Object.entries(cells).flatMap(([cell, values]) =>
    values.map((value, at) => ({
      puppy: cell.slice(0, 1),
      evaluator: cell.slice(1),
      criterion: at === 0 ? 'front' : 'rear',
      value,
    })),
  );
  const criteria = ['front', 'rear'].map((key) => ({ key, twoSided: false }));
  return { scale: { low: 1, high: 7 }, puppies: ['f', 'm', 's'], evaluators: ['v', 'o', 'h'], criteria, scores };
}

function resultOf(order: readonly (readonly [string, number, number | null])[]): PurposeResult {
  const merit = order.map(
    ([puppy, estimate, mean]): Merit => ({
      puppy,
      estimate,
      mean,
      sd: 0.2,
      low: estimate - 0.3,
      high: estimate + 0.3,
      halfLow: estimate - 0.1,
      halfHigh: estimate + 0.1,
      ranks: [],
    }),
  );
  return { key: 'show', merit, better: { f: { m: 0.65 }, m: { f: 0.35 } }, level: about(4) };
}

function seats(of: Readonly<Record<string, Partial<EvaluatorResult>>>): EvaluatorResult[] {
  return ['v', 'o', 'h'].map((evaluator) => ({
    evaluator,
    severity: about(0, 0.3),
    liking: about(0.4),
    noise: about(0.7),
    standsOut: { liking: 0, noise: 0 },
    ...of[evaluator],
  }));
}

const turned = resultOf([
  ['f', 0.3, 0.1],
  ['m', 0.1, 0.4],
  ['s', -0.4, -0.5],
]);
const doubt = ' Fern is ahead of Moss in 65 of 100 readings of these scores: too close to call.';

describe('why the order differs from the plain mean', () => {
  it('ST4: says nothing more where the order is the same', () => {
    const same = resultOf([
      ['f', 0.3, 0.4],
      ['m', 0.1, 0.1],
      ['s', -0.4, null],
    ]);
    expect(plainMeanSentence({ panel: panelOf({}), purpose, result: same, evaluators: seats({}), names })).toBe(
      'The plain mean gives the same order. Sorrel cannot be placed by a plain mean: nobody scored what counts here.',
    );
  });

  it('ST4: on complete cards where no seat stands out the order is told as the plain mean’s; not with a gap, an odd seat or level means', () => {
    const complete = panelOf({
      fv: [5, 5],
      fo: [5, 5],
      fh: [5, 5],
      mv: [5, 4],
      mo: [4, 5],
      mh: [4, 4],
      sv: [3, 3],
      so: [3, 4],
      sh: [4, 4],
    });
    const same = resultOf([
      ['f', 0.3, 0.9],
      ['m', 0.1, 0.2],
      ['s', -0.4, -1.1],
    ]);
    const said = (change: Partial<Parameters<typeof plainMeanSentence>[0]>) =>
      plainMeanSentence({ panel: complete, purpose, result: same, evaluators: seats({}), names, ...change });
    expect(said({})).toBe('Every card is complete and no seat stands out: the order is the plain mean’s.');
    expect(said({ panel: { ...complete, scores: complete.scores.slice(1) } })).toBe(
      'The plain mean gives the same order.',
    );
    expect(said({ evaluators: seats({ v: { liking: about(1.6, 0.6), standsOut: { liking: 0.9, noise: 0 } } }) })).toBe(
      'The plain mean gives the same order.',
    );
    expect(
      said({
        result: resultOf([
          ['f', 0.3, 0.5],
          ['m', 0.1, 0.5],
          ['s', -0.4, -1],
        ]),
      }),
    ).toBe('The plain mean gives the same order, but holds Fern and Moss for equal.');
  });

  it('ST4: names the severe seat that scored the one and missed the other', () => {
    const panel = panelOf({ fv: [3, 3], fo: [5, 5], fh: [5, 5], mo: [5, 5], mh: [4, 5] });
    const severe = seats({ v: { severity: about(-1.4, 0.5) } });
    expect(plainMeanSentence({ panel, purpose, result: turned, evaluators: severe, names })).toBe(
      `The plain mean puts Moss above Fern; this order puts Fern above Moss, because the vet, who scores about one and a half points below the panel’s level, scored Fern and not Moss.${doubt}`,
    );
  });

  it('ST4: names the generous seat that scored the other alone', () => {
    const panel = panelOf({ fo: [4, 5], fh: [5, 5], mv: [6, 6], mo: [4, 4], mh: [5, 4] });
    const generous = seats({ v: { severity: about(1, 0.5) } });
    expect(plainMeanSentence({ panel, purpose, result: turned, evaluators: generous, names })).toContain(
      'because the vet, who scores about a point above the panel’s level, scored Moss and not Fern.',
    );
  });

  it('ST4: does not blame severity whose interval holds zero, nor one too small to turn the order', () => {
    const panel = panelOf({ fv: [3, 3], fo: [5, 5], fh: [5, 5], mo: [5, 5], mh: [4, 5] });
    for (const severity of [about(-1.4, 1.5), about(-0.3, 0.1)]) {
      const said = plainMeanSentence({ panel, purpose, result: turned, evaluators: seats({ v: { severity } }), names });
      expect(said).not.toContain('the vet');
      expect(said).toContain('for the cells not scored');
      expect(said).toContain('no single seat accounts for the difference');
    }
  });

  it('ST4: names a partial seat only where its liking is clearly the largest and the order turns without it', () => {
    const panel = panelOf({
      fv: [2, 2],
      fo: [5, 5],
      fh: [5, 5],
      mv: [7, 7],
      mo: [4, 4],
      mh: [5, 4],
      sv: [4, 4],
      so: [4, 4],
      sh: [4, 4],
    });
    const said = (chance: number) =>
      plainMeanSentence({
        panel,
        purpose,
        result: turned,
        evaluators: seats({ v: { liking: about(1.6, 0.6), standsOut: { liking: chance, noise: 0 } } }),
        names,
      });
    expect(said(0.9)).toContain(
      "because the vet's scores follow a liking for a puppy as a whole more than the others' do, and so weigh less.",
    );
    expect(said(0.4)).not.toContain('the vet');
    expect(said(0.4)).not.toContain('not scored');
  });
});
