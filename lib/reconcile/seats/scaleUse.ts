import type { Panel } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';
import { residualsOf } from '../talk/unlikelySpread';

/** How much of the scale one seat uses: its points for one point that the seats together see, geometric mean 1 over the seats. */
export type ScaleUse = {
  readonly evaluator: string;
  readonly slope: number /** Its 99% interval, since each of several seats may be told by it. */;
  readonly low: number;
  readonly high: number;
};

/** A seat that scores a criterion the other way round than all others do. */
export type ReversedCriterion = {
  readonly evaluator: string;
  readonly criterion: string /** Correlation over the puppies with the mean of the others. */;
  readonly correlation: number;
  readonly puppies: number;
};

/** SD of a seat's log slope before any score. */
const PRIOR_SD = 0.35;
const SWEEPS = 60;
const LEAST_SEATS = 3;
/** In u; a slope this small is that of a seat whose scores go with nobody's. */
const LEAST_SLOPE = 1e-3;
/** A mean product of two seats' scores below this, in u², shows no puppies to use the scale on. */
const LEAST_PRODUCT = 0.02;

/**
 * One-factor fit of the seats' covariances: y_j = level_j + slope_j · (what the seats see) + own, so that cov(y_j, y_k) = slope_j slope_k σ²; slopes by unweighted least squares on the
 * covariances off the diagonal (Harman and Jones 1966), so that noise, which lies on it, has no part. Covariances are over puppies and criteria, each criterion's mean and each
 * seat's level on it taken off. Log slopes are drawn towards 0 by their error over the puppies (jackknife) against a prior SD of 0.35.
 * Empty below three seats, where the seats see nothing in common, and where one goes with nobody. Worked example: three seats who give 4 ± 1, 4 ± 1 and 4 ± 2 for the same two puppies have raw slopes 0.79, 0.79 and 1.59.
 */
export function scaleUse(panel: Panel): ScaleUse[] {
  const seats = panel.evaluators.filter((seat) => panel.scores.some(({ evaluator }) => evaluator === seat)).sort();
  if (seats.length < LEAST_SEATS) return [];
  const rows = centredRows(panel, seats);
  const whole = logSlopes(rows, seats.length);
  if (whole === null) return [];
  const puppies = [...new Set(rows.map(({ puppy }) => puppy))];
  const left = puppies.flatMap((puppy) => {
    const slopes = logSlopes(
      rows.filter((row) => row.puppy !== puppy),
      seats.length,
    );
    return slopes === null ? [] : [slopes];
  });
  return seats.map((evaluator, at) => {
    const raw = whole[at] ?? 0;
    const values = left.map((slopes) => slopes[at] ?? 0);
    const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
    const variance =
      values.length < puppies.length
        ? Infinity
        : ((values.length - 1) / values.length) * values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const drawn = PRIOR_SD ** 2 / (PRIOR_SD ** 2 + variance);
    const [middle, half] = [raw * drawn, 2.576 * PRIOR_SD * Math.sqrt(1 - drawn)];
    return { evaluator, slope: Math.exp(middle), low: Math.exp(middle - half), high: Math.exp(middle + half) };
  });
}

type Row = { readonly puppy: string; readonly criterion: string; readonly values: readonly (number | null)[] };

/** Quality in units u, a row a cell, a column a seat; criterion, seat on it and puppy on it told apart by an additive fit whose puppy part is put back. */
function centredRows(panel: Panel, seats: readonly string[]): Row[] {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  return panel.criteria.flatMap((criterion) => {
    const cells = panel.scores
      .filter((score) => score.criterion === criterion.key)
      .map(({ puppy, evaluator, value }) => ({
        row: puppy,
        seat: evaluator,
        value: scoreQuality(panel, value, criterion) / unit,
      }));
    const left = residualsOf(cells);
    // Value less residual is puppy's mean plus seat's level; the level is the mean over the puppies of what a seat gave beyond the puppy's mean.
    const puppyMean = new Map<string, number>();
    const level = levelsOf(cells, left);
    for (const [puppy, list] of groupedBy(cells, ({ row }) => row))
      puppyMean.set(puppy, mean(list.map(({ seat, value }) => value - (level.get(seat) ?? 0))));
    const overall = mean([...puppyMean.values()]);
    return [...puppyMean.keys()].map((puppy) => ({
      puppy,
      criterion: criterion.key,
      values: seats.map((seat) => {
        const cell = cells.find((one) => one.row === puppy && one.seat === seat);
        return cell ? cell.value - (level.get(seat) ?? 0) - overall : null;
      }),
    }));
  });
}

/** Each seat's level on one criterion, up to what all have alike. */
function levelsOf(
  cells: readonly { readonly row: string; readonly seat: string; readonly value: number }[],
  left: readonly number[],
): Map<string, number> {
  const fitted = cells.map(({ row, seat, value }, at) => ({ row, seat, value: value - (left[at] ?? 0) }));
  const rows = groupedBy(fitted, ({ row }) => row);
  const levels = new Map<string, number>();
  for (const [seat, list] of groupedBy(fitted, (cell) => cell.seat)) {
    levels.set(seat, mean(list.map(({ row, value }) => value - mean((rows.get(row) ?? []).map((one) => one.value)))));
  }
  return levels;
}

function logSlopes(rows: readonly Row[], seats: number): number[] | null {
  const product = (one: number, other: number) => {
    const both = rows.flatMap(({ values }) => {
      const [left, right] = [values[one] ?? null, values[other] ?? null];
      return left === null || right === null ? [] : [left * right];
    });
    return both.length > 0 ? mean(both) : 0;
  };
  const products = Array.from({ length: seats }, (_, one) =>
    Array.from({ length: seats }, (__, other) => (one === other ? 0 : product(one, other))),
  );
  const common = mean(products.flatMap((row, one) => row.filter((_, other) => other !== one)));
  if (common < LEAST_PRODUCT) return null;
  let slopes = Array.from({ length: seats }, () => Math.sqrt(common));
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    for (let seat = 0; seat < seats; seat += 1) {
      const others = slopes.filter((_, at) => at !== seat).reduce((sum, slope) => sum + slope * slope, 0);
      const pull = slopes.reduce((sum, slope, at) => sum + (at === seat ? 0 : slope * (products[seat]?.[at] ?? 0)), 0);
      slopes = slopes.with(seat, Math.max(LEAST_SLOPE, pull / others));
    }
  }
  // A seat that goes with nobody is not one that uses little of the scale.
  if (slopes.some((slope) => slope <= LEAST_SLOPE * 1.01)) return null;
  const logs = slopes.map(Math.log);
  const middle = mean(logs);
  return logs.map((log) => log - middle);
}

/** A correlation of −0.8 over six puppies comes by chance in 3 of 100; it has to stand against seats who do agree among themselves. */
const REVERSED_BELOW = -0.8;
const LEAST_PUPPIES = 6;

/** Criteria that one seat scored upside down, by every sign: its scores run against those of all others, who run together. A log-normal slope cannot turn, so this is a question of its own. */
export function reversedCriteria(panel: Panel): ReversedCriterion[] {
  const seats = panel.evaluators.filter((seat) => panel.scores.some(({ evaluator }) => evaluator === seat));
  if (seats.length < LEAST_SEATS) return [];
  return panel.criteria.flatMap(({ key: criterion }) => {
    const of = (seat: string) =>
      new Map(
        panel.scores
          .filter((score) => score.evaluator === seat && score.criterion === criterion)
          .map(({ puppy, value }) => [puppy, value]),
      );
    const columns = new Map(seats.map((seat) => [seat, of(seat)]));
    const found = seats.map((evaluator) => ({ evaluator, criterion, ...againstOthers(columns, evaluator) }));
    const [turned, ...more] = found.filter(
      ({ correlation, puppies }) => correlation <= REVERSED_BELOW && puppies >= LEAST_PUPPIES,
    );
    if (!turned || more.length > 0) return [];
    const rest = new Map([...columns].filter(([seat]) => seat !== turned.evaluator));
    const together = [...rest.keys()].every((seat) => againstOthers(rest, seat).correlation > 0.3);
    return together ? [turned] : [];
  });
}

function againstOthers(
  columns: ReadonlyMap<string, ReadonlyMap<string, number>>,
  seat: string,
): { readonly correlation: number; readonly puppies: number } {
  const own = columns.get(seat) ?? new Map<string, number>();
  const pairs = [...own].flatMap(([puppy, value]) => {
    const others = [...columns]
      .flatMap(([other, column]) => (other === seat ? [] : [column.get(puppy)]))
      .filter((one) => one !== undefined);
    return others.length > 0 ? [{ first: value, second: mean(others) }] : [];
  });
  const [left, right] = [mean(pairs.map(({ first }) => first)), mean(pairs.map(({ second }) => second))];
  const sum = (of: (pair: { readonly first: number; readonly second: number }) => number) =>
    pairs.reduce((total, pair) => total + of(pair), 0);
  const spread = Math.sqrt(sum(({ first }) => (first - left) ** 2) * sum(({ second }) => (second - right) ** 2));
  return {
    puppies: pairs.length,
    correlation: spread > 1e-12 ? sum(({ first, second }) => (first - left) * (second - right)) / spread : 0,
  };
}

function groupedBy<T>(list: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) groups.set(keyOf(one), [...(groups.get(keyOf(one)) ?? []), one]);
  return groups;
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
