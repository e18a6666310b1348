import type { CoefficientResult, Undefined, UndefinedReason } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, distinctScores, raterCount, scoresOf, varies, type ScoreTable } from './scoreTable';

/**
 * How far two scores lie apart: `nominal` equal or not, `ordinal` by ranks, `interval` by points, `ratio` by
 * proportion.
 */
export type AlphaMetric = 'nominal' | 'ordinal' | 'interval' | 'ratio';

/**
 * α with what it is made of: D_o and D_e in the metric's own unit, and how many scores and units could be paired.
 */
type AlphaDetail = {
  readonly value: number;
  readonly observedDisagreement: number;
  readonly expectedDisagreement: number;
  readonly pairableValues: number;
  readonly unitsUsed: number;
};

/**
 * Krippendorff's α: one minus observed over expected disagreement among pairable scores; gaps allowed.
 *
 * A unit with m_u ≥ 2 scores offers pairs; n is the number of scores in such units, n_c how many of them are c.
 *   D_o = (1/n) Σ_u Σ_(i≠j) δ²(x_ui, x_uj) / (m_u − 1)     within units
 *   D_e = Σ_c Σ_k n_c n_k δ²(c, k) / (n (n − 1))           among all pairable scores
 *   α = 1 − D_o / D_e
 *   δ²:  nominal 1 for c ≠ k;  interval (c − k)²;  ratio ((c − k) / (c + k))²;
 *        ordinal (g_c − g_k)², g the mid-rank of the score among all pairable ones
 *
 * In: units × raters; units with fewer than two scores are left out, from D_e too. Out: 1 perfect, 0 chance, below
 * 0 worse.
 * Undefined: no scores, one rater, no unit with two scores, all pairable scores equal, or (ratio) scores of both
 * signs.
 *
 * Source: Krippendorff 2011, Computing Krippendorff's alpha-reliability; Hayes & Krippendorff 2007.
 *
 * @example D_o = 1/3 and D_e = 3/5.
 * krippendorffAlpha([[1, 1], [2, 2], [1, 2]], 'nominal').value // 0.4444
 * krippendorffAlpha([[1, 1], [1, 1]], 'nominal') // { "undefined": "no variation" }
 *
 * @example Krippendorff's four observers of twelve units: .743, .815, .849 and .797.
 * const head = [[1, 1, null, 1], [2, 2, 3, 2], [3, 3, 3, 3], [3, 3, 3, 3], [2, 2, 2, 2], [1, 2, 3, 4]]
 * const tail = [[4, 4, 4, 4], [1, 1, 2, 1], [2, 2, 2, 2], [null, 5, 5, 5], [null, null, 1, 1], [null, 3, null, null]]
 * const alpha = (metric) => krippendorffAlpha([...head, ...tail], metric).value
 * ['nominal', 'ordinal', 'interval', 'ratio'].map(alpha) // [0.743, 0.815, 0.849, 0.797]
 */
export function krippendorffAlpha(table: ScoreTable, metric: AlphaMetric): CoefficientResult {
  const detail = alphaDetail(table, metric);
  return 'undefined' in detail ? detail : { value: detail.value, low: null, high: null };
}

/**
 * α with both disagreements and with how many scores and units they rest on.
 *
 * @example
 * const detail = alphaDetail([[1, 1], [2, 2], [1, 2]], 'nominal')
 * [detail.observedDisagreement, detail.expectedDisagreement, detail.pairableValues] // [0.3333, 0.6, 6]
 * alphaDetail([[1, 1], [2, 2], [1, null]], 'interval').unitsUsed // 2
 */
export function alphaDetail(table: ScoreTable, metric: AlphaMetric): AlphaDetail | Undefined {
  const prepared = prepareAlpha(canonicalTable(table), metric);
  if ('undefined' in prepared) return prepared;
  const once = new Float64Array(prepared.units.length).fill(1);
  const { observed, expected, total } = prepared.disagreement(once);
  if (!(expected > 0)) return { undefined: 'no variation' };
  const value = 1 - observed / expected;
  return {
    value,
    observedDisagreement: observed,
    expectedDisagreement: expected,
    pairableValues: total,
    unitsUsed: prepared.units.length,
  };
}

/**
 * α as a function of how often each pairable unit is drawn, for the bootstrap and the jackknife; units in
 * canonical order.
 *
 * D_e is taken anew from the drawn scores, ranks of the ordinal metric included. Null when the drawn scores are
 * all equal.
 *
 * @example
 * const statistic = resampledAlpha([[1, 1], [2, 2], [1, 2]], 'nominal')
 * statistic.evaluate([1, 1, 1]) // 0.4444
 * statistic.evaluate([2, 0, 0]) // null
 */
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

/**
 * o_ck: how often values c and k meet within units, each unit's pairs weighed by 1 / (scores − 1). Its whole is n.
 *
 * Rows and columns are the distinct pairable scores, ascending. Source: Krippendorff 2011.
 *
 * @example
 * coincidenceMatrix([[1, 1], [2, 2], [1, 2]]) // [[2, 1], [1, 2]]
 */
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
  if (metric === 'ratio' && (values[0] ?? 0) < 0 && (values[values.length - 1] ?? 0) > 0)
    return { undefined: 'ratio needs scores of one sign' };
  const units = scored.map((scores) => asUnit(scores, values));
  const disagreement =
    metric === 'nominal' || metric === 'ratio'
      ? byPairs(units, pairDistances(values, metric))
      : bySquares(units, values, metric);
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

/**
 * Interval: squared differences of the values. Ordinal: squared differences of their mid-ranks, which is the ordinal
 * metric.
 */
function bySquares(
  units: readonly Unit[],
  values: Float64Array,
  metric: 'interval' | 'ordinal',
): Prepared['disagreement'] {
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
      if (times !== 0) observed += times * (fixed ? fixed[u] : withinSquares(units[u], ranks));
    }
    return { observed: observed / total, expected: betweenSquares(counts, ranks, total), total };
  };
}

function addCounts(counts: Float64Array, unit: Unit, times: number): number {
  if (times === 0) return 0;
  for (let i = 0; i < unit.levels.length; i += 1) {
    const level = unit.levels[i];
    counts[level] = counts[level] + times * unit.times[i];
  }
  return times * unit.size;
}

/** Σ over ordered pairs within the unit of (x - y)², divided by (scores - 1). */
function withinSquares(unit: Unit, values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < unit.levels.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const gap = values[unit.levels[i]] - values[unit.levels[j]];
      sum += 2 * unit.times[i] * unit.times[j] * gap * gap;
    }
  }
  return sum / (unit.size - 1);
}

/** Σ n_c n_k (x_c - x_k)² / (n (n - 1)), by way of the mean so that nothing cancels. */
function betweenSquares(counts: Float64Array, values: Float64Array, total: number): number {
  let mean = 0;
  for (let c = 0; c < counts.length; c += 1) mean += counts[c] * values[c];
  mean /= total;
  let squares = 0;
  let levels = 0;
  for (let c = 0; c < counts.length; c += 1) {
    const count = counts[c];
    if (count > 0) levels += 1;
    squares += count * (values[c] - mean) ** 2;
  }
  return levels < 2 ? 0 : (2 * squares) / (total - 1);
}

function midRanks(counts: Float64Array, ranks: Float64Array): void {
  let below = 0;
  for (let c = 0; c < counts.length; c += 1) {
    ranks[c] = below + counts[c] / 2;
    below += counts[c];
  }
}

/** Nominal and ratio: any fixed distance between two values. */
function byPairs(units: readonly Unit[], distances: Float64Array): Prepared['disagreement'] {
  const levels = Math.round(Math.sqrt(distances.length));
  const within = units.map((unit) => {
    let sum = 0;
    unit.levels.forEach((a, i) =>
      unit.levels.forEach((b, j) => (sum += unit.times[i] * unit.times[j] * distances[a * levels + b])),
    );
    return sum / (unit.size - 1);
  });
  const counts = new Float64Array(levels);
  return (drawn) => {
    let total = 0;
    let observed = 0;
    counts.fill(0);
    for (let u = 0; u < units.length; u += 1) {
      total += addCounts(counts, units[u], drawn[u]);
      observed += drawn[u] * within[u];
    }
    let expected = 0;
    for (let a = 0; a < levels; a += 1) {
      for (let b = 0; b < a; b += 1) expected += 2 * counts[a] * counts[b] * distances[a * levels + b];
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
