import type { StudyComponents } from './decisionStudy';

type ThreeWayTerm =
  | 'target'
  | 'rater'
  | 'criterion'
  | 'targetRater'
  | 'targetCriterion'
  | 'raterCriterion'
  | 'residual';
type MeanSquare = { readonly meanSquare: number; readonly df: number };
/** A mean square in squared points and its degrees of freedom for each term of targets × raters × criteria. */
export type ThreeWayMeanSquares = Readonly<Record<ThreeWayTerm, MeanSquare>>;

/**
 * Analysis of variance of a complete crossed design with one score a cell; the three-way interaction is the
 * residual.
 *
 * Each score is its grand mean plus three main effects, three two-way interactions and a rest, each the mean over
 * what it does not name less the terms inside it. A mean square is Σ over all cells of the squared term, over its
 * degrees of freedom: n_p − 1 for targets, (n_p − 1)(n_j − 1) for targets × raters, and so on.
 *
 * In: `scores[target][rater][criterion]`, every cell filled, at least two of each: with fewer it would divide by 0.
 *
 * Source: Fisher 1925; Brennan 2001, Generalizability Theory, section 3.2.
 *
 * @example Effects of ±1, ±½ and ±1½ of target, rater and criterion, and ±½ of target × rater.
 * const sign = [-1, 1]
 * const cell = (p, j, c) => 4 + sign[p] + sign[j] / 2 + (3 * sign[c]) / 2 + (sign[p] * sign[j]) / 2
 * const scores = sign.map((_, p) => sign.map((_, j) => sign.map((_, c) => cell(p, j, c))))
 * const squares = threeWayMeanSquares(scores)
 * squares.target // { "meanSquare": 8, "df": 1 }
 * [squares.rater.meanSquare, squares.criterion.meanSquare, squares.targetRater.meanSquare] // [2, 18, 2]
 * squares.residual.meanSquare // 0
 */
export function threeWayMeanSquares(scores: readonly (readonly (readonly number[])[])[]): ThreeWayMeanSquares {
  const sizes = { t: scores.length, r: scores[0]?.length ?? 0, c: scores[0]?.[0]?.length ?? 0 };
  const { t, r, c } = sizes;
  const means = cellMeans(scores, sizes);
  const at = (values: Float64Array, index: number): number => values[index];
  const sums: Record<ThreeWayTerm, number> = {
    target: 0,
    rater: 0,
    criterion: 0,
    targetRater: 0,
    targetCriterion: 0,
    raterCriterion: 0,
    residual: 0,
  };
  for (let i = 0; i < t; i += 1) {
    for (let j = 0; j < r; j += 1) {
      for (let k = 0; k < c; k += 1) {
        const target = at(means.t, i) - means.all;
        const rater = at(means.r, j) - means.all;
        const criterion = at(means.c, k) - means.all;
        const targetRater = at(means.tr, i * r + j) - means.all - target - rater;
        const targetCriterion = at(means.tc, i * c + k) - means.all - target - criterion;
        const raterCriterion = at(means.rc, j * c + k) - means.all - rater - criterion;
        const residual =
          (scores[i]?.[j]?.[k] ?? 0) -
          means.all -
          target -
          rater -
          criterion -
          targetRater -
          targetCriterion -
          raterCriterion;
        const parts = { target, rater, criterion, targetRater, targetCriterion, raterCriterion, residual };
        for (const term of TERMS) sums[term] += parts[term] ** 2;
      }
    }
  }
  const df: Record<ThreeWayTerm, number> = {
    target: t - 1,
    rater: r - 1,
    criterion: c - 1,
    targetRater: (t - 1) * (r - 1),
    targetCriterion: (t - 1) * (c - 1),
    raterCriterion: (r - 1) * (c - 1),
    residual: (t - 1) * (r - 1) * (c - 1),
  };
  const square = (term: ThreeWayTerm): MeanSquare => ({ meanSquare: sums[term] / df[term], df: df[term] });
  return {
    target: square('target'),
    rater: square('rater'),
    criterion: square('criterion'),
    targetRater: square('targetRater'),
    targetCriterion: square('targetCriterion'),
    raterCriterion: square('raterCriterion'),
    residual: square('residual'),
  };
}

/**
 * Variance components in squared points from the mean squares set equal to what they are expected to be; negative
 * ones kept.
 *
 * residual = MS_pjc; targetRater = (MS_pj − MS_pjc) / n_c; target = (MS_p − MS_pj − MS_pc + MS_pjc) / (n_j n_c);
 * the others alike.
 *
 * Source: Brennan 2001, section 3.4; Cornfield & Tukey 1956 (expected mean squares).
 *
 * @example Two of each: target (8 − 2 − 0 + 0) / 4, targetRater (2 − 0) / 2; the raters' part is (2 − 2) / 4.
 * const zero = { meanSquare: 0, df: 1 }
 * const two = { meanSquare: 2, df: 1 }
 * const main = { target: { meanSquare: 8, df: 1 }, rater: two, criterion: { meanSquare: 18, df: 1 } }
 * const squares = { ...main, targetRater: two, targetCriterion: zero, raterCriterion: zero, residual: zero }
 * const { target, rater, criterion, targetRater } = threeWayComponents(squares)
 * [target, rater, criterion, targetRater] // [1.5, 0, 4.5, 1]
 */
export function threeWayComponents(squares: ThreeWayMeanSquares): Required<StudyComponents> {
  const ms = (term: ThreeWayTerm): number => squares[term].meanSquare;
  const t = squares.target.df + 1;
  const r = squares.rater.df + 1;
  const c = squares.criterion.df + 1;
  const residual = ms('residual');
  return {
    target: (ms('target') - ms('targetRater') - ms('targetCriterion') + residual) / (r * c),
    rater: (ms('rater') - ms('targetRater') - ms('raterCriterion') + residual) / (t * c),
    criterion: (ms('criterion') - ms('targetCriterion') - ms('raterCriterion') + residual) / (t * r),
    targetRater: (ms('targetRater') - residual) / c,
    targetCriterion: (ms('targetCriterion') - residual) / r,
    raterCriterion: (ms('raterCriterion') - residual) / t,
    residual,
  };
}

const TERMS: readonly ThreeWayTerm[] = [
  'target',
  'rater',
  'criterion',
  'targetRater',
  'targetCriterion',
  'raterCriterion',
  'residual',
];

type Means = Record<'t' | 'r' | 'c' | 'tr' | 'tc' | 'rc', Float64Array> & { all: number };

function cellMeans(
  scores: readonly (readonly (readonly number[])[])[],
  { t, r, c }: { t: number; r: number; c: number },
): Means {
  const means: Means = {
    t: new Float64Array(t),
    r: new Float64Array(r),
    c: new Float64Array(c),
    tr: new Float64Array(t * r),
    tc: new Float64Array(t * c),
    rc: new Float64Array(r * c),
    all: 0,
  };
  const add = (values: Float64Array, index: number, share: number): void => {
    values[index] = values[index] + share;
  };
  scores.forEach((rows, i) =>
    rows.forEach((row, j) =>
      row.forEach((score, k) => {
        add(means.t, i, score / (r * c));
        add(means.r, j, score / (t * c));
        add(means.c, k, score / (t * r));
        add(means.tr, i * r + j, score / c);
        add(means.tc, i * c + k, score / r);
        add(means.rc, j * c + k, score / t);
        means.all += score / (t * r * c);
      }),
    ),
  );
  return means;
}
