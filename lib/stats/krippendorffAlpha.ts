import type { CoefficientResult, Undefined, UndefinedReason } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, distinctScores, raterCount, scoresOf, varies, type ScoreTable } from './scoreTable';

export type AlphaMetric = 'nominal' | 'ordinal' | 'interval' | 'ratio';

type AlphaDetail = {
  readonly value: number;
  readonly observedDisagreement: number;
  readonly expectedDisagreement: number;
  readonly pairableValues: number;
  readonly unitsUsed: number;
};

/**
 * Krippendorff's α: one minus observed over expected disagreement among pairable scores; gaps allowed. 1 = perfect, 0 = chance, below 0 worse.
 * Units with fewer than two scores are left out, from the expected disagreement too. Undefined when no unit has two scores, when all
 * pairable scores are equal, or (ratio) when scores have both signs. Source: Krippendorff, Computing Krippendorff's Alpha-Reliability, 2011.
 * Worked example: [[1, 1], [2, 2], [1, 2]], nominal: D_o = 1/3, D_e = 3/5, α = 4/9.
 */
export function krippendorffAlpha(table: ScoreTable, metric: AlphaMetric): CoefficientResult {
  const detail = alphaDetail(table, metric);
  return 'undefined' in detail ? detail : { value: detail.value, low: null, high: null };
}

export function alphaDetail(table: ScoreTable, metric: AlphaMetric): AlphaDetail | Undefined {
  const prepared = prepareAlpha(canonicalTable(table), metric);
  if ('undefined' in prepared) return prepared;
  const once = new Float64Array(prepared.units.length).fill(1);
  const { observed, expected, total } = prepared.disagreement(once);
  if (!(expected > 0)) return { undefined: 'no variation' };
  const value = 1 - observed / expected;
  return { value, observedDisagreement: observed, expectedDisagreement: expected, pairableValues: total, unitsUsed: prepared.units.length };
}

/** α as a function of how often each pairable unit is drawn, for the bootstrap and the jackknife. */
export function resampledAlpha(table: ScoreTable, metric: AlphaMetric): ResampledStatistic | Undefined {
  const prepared = prepareAlpha(canonicalTable(table), metric);
  if ('undefined' in prepared) return prepared;
  return {
    units: prepared.units.length,
    evaluate(counts) {
      const { observed, expected } = prepared.disagreement(counts);
      return expected > 0 ? 1 - observed / expected : null;
    },
  };
}

/** o_ck: how often values c and k meet within units, each unit's pairs weighed by 1 / (scores - 1). Rows and columns as `distinctScores`. */
export function coincidenceMatrix(table: ScoreTable): number[][] {
  const levels = distinctScores(table.filter((row) => scoresOf(row).length >= 2));
  const matrix = levels.map(() => levels.map(() => 0));
  for (const row of table) {
    const scores = scoresOf(row);
    scores.forEach((a, i) =>
      scores.forEach((b, j) => {
        const cells = matrix[levels.indexOf(a)];
        const column = levels.indexOf(b);
        if (i !== j && cells) cells[column] = (cells[column] ?? 0) + 1 / (scores.length - 1);
      }),
    );
  }
  return matrix;
}

type Disagreement = { observed: number; expected: number; total: number };
type Prepared = { readonly units: readonly Unit[]; disagreement(counts: ArrayLike<number>): Disagreement };
/** One unit: its levels (positions among the distinct scores) with how often each occurs. */
type Unit = { readonly size: number; readonly levels: Int32Array; readonly times: Float64Array };

function prepareAlpha(table: ScoreTable, metric: AlphaMetric): Prepared | Undefined {
  const scored = table.map(scoresOf).filter((scores) => scores.length >= 2);
  const reason = whyNoAlpha(table, scored);
  if (reason !== null) return { undefined: reason };
  const values = Float64Array.from(distinctScores(scored));
  if (metric === 'ratio' && (values[0] ?? 0) < 0 && (values[values.length - 1] ?? 0) > 0) return { undefined: 'ratio needs scores of one sign' };
  const units = scored.map((scores) => asUnit(scores, values));
  const disagreement = metric === 'nominal' || metric === 'ratio' ? byPairs(units, pairDistances(values, metric)) : bySquares(units, values, metric);
  return { units, disagreement };
}

function whyNoAlpha(table: ScoreTable, scored: readonly number[][]): UndefinedReason | null {
  const raters = raterCount(table);
  if (raters === 0) return 'no scores';
  if (raters === 1) return 'one rater';
  if (scored.length === 0) return 'fewer than two scores in every unit';
  return varies(scored.flat()) ? null : 'no variation';
}

function asUnit(scores: readonly number[], values: Float64Array): Unit {
  const levels = [...new Set(scores)].map((score) => values.indexOf(score));
  const times = levels.map((level) => scores.filter((score) => score === values[level]).length);
  return { size: scores.length, levels: Int32Array.from(levels), times: Float64Array.from(times) };
}

/** Interval: squared differences of the values. Ordinal: squared differences of their mid-ranks, which is the ordinal metric. */
function bySquares(units: readonly Unit[], values: Float64Array, metric: 'interval' | 'ordinal'): Prepared['disagreement'] {
  const fixed = metric === 'interval' ? units.map((unit) => withinSquares(unit, values)) : null;
  const counts = new Float64Array(values.length);
  const ranks = Float64Array.from(values);
  return (drawn) => {
    let total = 0;
    counts.fill(0);
    for (let u = 0; u < units.length; u += 1) total += addCounts(counts, units[u], drawn[u]);
    if (metric === 'ordinal') midRanks(counts, ranks);
    let observed = 0;
    for (let u = 0; u < units.length; u += 1) {
      const times = drawn[u];
      if (times !== 0) observed += times * (fixed ? (fixed[u]) : withinSquares(units[u], ranks));
    }
    return { observed: observed / total, expected: betweenSquares(counts, ranks, total), total };
  };
}

function addCounts(counts: Float64Array, unit: Unit, times: number): number {
  if (times === 0) return 0;
  for (let i = 0; i < unit.levels.length; i += 1) {
    const level = unit.levels[i];
    counts[level] = (counts[level]) + times * (unit.times[i]);
  }
  return times * unit.size;
}

/** Σ over ordered pairs within the unit of (x - y)², divided by (scores - 1). */
function withinSquares(unit: Unit, values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < unit.levels.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const gap = (values[unit.levels[i]]) - (values[unit.levels[j]]);
      sum += 2 * (unit.times[i]) * (unit.times[j]) * gap * gap;
    }
  }
  return sum / (unit.size - 1);
}

/** Σ n_c n_k (x_c - x_k)² / (n (n - 1)), by way of the mean so that nothing cancels. */
function betweenSquares(counts: Float64Array, values: Float64Array, total: number): number {
  let mean = 0;
  for (let c = 0; c < counts.length; c += 1) mean += (counts[c]) * (values[c]);
  mean /= total;
  let squares = 0;
  let levels = 0;
  for (let c = 0; c < counts.length; c += 1) {
    const count = counts[c];
    if (count > 0) levels += 1;
    squares += count * ((values[c]) - mean) ** 2;
  }
  return levels < 2 ? 0 : (2 * squares) / (total - 1);
}

function midRanks(counts: Float64Array, ranks: Float64Array): void {
  let below = 0;
  for (let c = 0; c < counts.length; c += 1) {
    ranks[c] = below + (counts[c]) / 2;
    below += counts[c];
  }
}

/** Nominal and ratio: any fixed distance between two values. */
function byPairs(units: readonly Unit[], distances: Float64Array): Prepared['disagreement'] {
  const levels = Math.round(Math.sqrt(distances.length));
  const within = units.map((unit) => {
    let sum = 0;
    unit.levels.forEach((a, i) => unit.levels.forEach((b, j) => (sum += (unit.times[i]) * (unit.times[j]) * (distances[a * levels + b]))));
    return sum / (unit.size - 1);
  });
  const counts = new Float64Array(levels);
  return (drawn) => {
    let total = 0;
    let observed = 0;
    counts.fill(0);
    for (let u = 0; u < units.length; u += 1) {
      total += addCounts(counts, units[u], drawn[u]);
      observed += (drawn[u]) * (within[u]);
    }
    let expected = 0;
    for (let a = 0; a < levels; a += 1) {
      for (let b = 0; b < a; b += 1) expected += 2 * (counts[a]) * (counts[b]) * (distances[a * levels + b]);
    }
    return { observed: observed / total, expected: expected / (total * (total - 1)), total };
  };
}

function pairDistances(values: Float64Array, metric: 'nominal' | 'ratio'): Float64Array {
  const n = values.length;
  return Float64Array.from({ length: n * n }, (_, at) => {
    const a = values[Math.floor(at / n)];
    const b = values[at % n];
    if (a === b) return 0;
    return metric === 'nominal' ? 1 : ((a - b) / (a + b)) ** 2;
  });
}
