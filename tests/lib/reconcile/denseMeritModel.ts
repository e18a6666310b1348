import type { MeritPriors } from '#lib/reconcile/merit/meritPriors';
import type { Panel, PanelScore } from '#lib/reconcile/panel/panel';
import type { StandardDeviations } from '#lib/reconcile/merit/varianceParameters';

/**
 * The merit model written out plainly: every covariance of two scores by its definition, one dense matrix, elimination by Gauss and
 * Jordan. Slow, and independent of the engine's tables. Scores must be quality in units about the middle already.
 */
export type DenseModel = {
  readonly logLikelihood: number;
  /** Posterior mean and covariance of π_p + κ_c + (πκ)_pc. */
  standing(puppy: string, criterion: string): { readonly mean: number };
  covariance(a: readonly [puppy: string, criterion: string], b: readonly [puppy: string, criterion: string]): number;
  /** Posterior mean of (πβ) of a pair. */
  liking(puppy: string, evaluator: string): number;
};

type Sds = Omit<StandardDeviations, 'liking' | 'noise'> & {
  /** Share of its cells in which a seat repeats the one that has 1; none for the others. */ readonly repeats: Readonly<
    Record<string, number>
  >;
  readonly liking: Readonly<Record<string, number>>;
  readonly noise: Readonly<Record<string, number>> /** Variance of rounding a score, added to every noise. */;
  readonly rounding: { readonly oneSided: number; readonly folded: number };
};

export function denseMeritModel(panel: Panel, priors: MeritPriors, sds: Sds): DenseModel {
  const twoSided = new Map(panel.criteria.map(({ key, twoSided: folded }) => [key, folded]));
  const folded = (criterion: string) => twoSided.get(criterion) === true;
  const truth = (a: Cell, b: Cell) => {
    const [sameCriterion, samePuppy] = [a.criterion === b.criterion, a.puppy === b.puppy];
    const own = (folded(a.criterion) ? sds.puppyFolded : sds.puppyCriterion) ** 2;
    return (sameCriterion ? priors.criterionLevel ** 2 + (samePuppy ? own : 0) : 0) + (samePuppy ? sds.puppy ** 2 : 0);
  };
  const loading = (seat: string, lasts: boolean) => {
    const share = sds.repeats[seat] ?? 0;
    return Math.min(
      Math.sqrt(0.99),
      lasts ? share / Math.sqrt(share ** 2 + (1 - share) ** 2) : share === 1 ? 1 : share > 0 ? sds.noiseRepeated : 0,
    );
  };
  const togetherOf = (one: string, other: string, lasts: boolean) =>
    one === other ? 1 : loading(one, lasts) * loading(other, lasts);
  const heard = (a: PanelScore, b: PanelScore) => {
    const together = togetherOf(a.evaluator, b.evaluator, true);
    const liking = a.puppy === b.puppy ? (sds.liking[a.evaluator] ?? NaN) * (sds.liking[b.evaluator] ?? NaN) : 0;
    const own = (folded(a.criterion) ? sds.evaluatorFolded : sds.evaluatorCriterion) ** 2;
    return (
      (a.evaluator === b.evaluator ? sds.evaluator ** 2 : 0) +
      together * (liking + (a.criterion === b.criterion ? own : 0))
    );
  };
  const noise = (a: PanelScore, b: PanelScore) => {
    if (a.puppy !== b.puppy || a.criterion !== b.criterion) return 0;
    const sd = ({ evaluator, criterion }: PanelScore) => {
      const own = sds.noise[evaluator] ?? NaN;
      return Math.sqrt(
        folded(criterion) ? (own * sds.foldedNoise) ** 2 + sds.rounding.folded : own ** 2 + sds.rounding.oneSided,
      );
    };
    return togetherOf(a.evaluator, b.evaluator, false) * sd(a) * sd(b);
  };
  const { scores } = panel;
  const { inverse, logDeterminant } = inverted(
    scores.map((a) => scores.map((b) => truth(a, b) + heard(a, b) + noise(a, b))),
  );
  const weighted = inverse.map((row) => row.reduce((sum, value, at) => sum + value * (scores[at]?.value ?? NaN), 0));
  const times = (row: readonly number[], vector: readonly number[]) =>
    row.reduce((sum, value, at) => sum + value * (vector[at] ?? NaN), 0);
  const cell = ([puppy, criterion]: readonly [string, string]): Cell => ({ puppy, criterion });
  const cross = (a: Cell) => scores.map((score) => truth(a, score));
  return {
    logLikelihood:
      -(
        logDeterminant +
        times(
          weighted,
          scores.map(({ value }) => value),
        )
      ) / 2,
    standing: (puppy, criterion) => ({ mean: times(cross({ puppy, criterion }), weighted) }),
    covariance: (a, b) => {
      const right = cross(cell(b));
      return (
        truth(cell(a), cell(b)) -
        times(
          cross(cell(a)),
          inverse.map((row) => times(row, right)),
        )
      );
    },
    liking: (puppy, evaluator) =>
      times(
        scores.map((score) =>
          score.puppy === puppy
            ? togetherOf(score.evaluator, evaluator, true) *
              (sds.liking[evaluator] ?? NaN) *
              (sds.liking[score.evaluator] ?? NaN)
            : 0,
        ),
        weighted,
      ),
  };
}

type Cell = { readonly puppy: string; readonly criterion: string };

function inverted(matrix: readonly (readonly number[])[]): { inverse: number[][]; logDeterminant: number } {
  const size = matrix.length;
  const rows = matrix.map((row, at) => [...row, ...row.map((_, other) => (other === at ? 1 : 0))]);
  let logDeterminant = 0;
  for (let pivot = 0; pivot < size; pivot += 1) {
    // Positive definite: no exchange of rows is needed.
    const pivotRow = rows[pivot] ?? [];
    const scale = pivotRow[pivot] ?? NaN;
    logDeterminant += Math.log(scale);
    pivotRow.forEach((value, at) => {
      pivotRow[at] = value / scale;
    });
    rows.forEach((row, at) => {
      const factor = row[pivot] ?? NaN;
      if (at === pivot || factor === 0) return;
      row.forEach((value, column) => {
        row[column] = value - factor * (pivotRow[column] ?? NaN);
      });
    });
  }
  return { inverse: rows.map((row) => row.slice(size)), logDeterminant };
}
