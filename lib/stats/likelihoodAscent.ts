import { choleskyFactor, choleskySolve } from './cholesky';
import type { MixedModel } from './mixedModel';
import type { PenalisedSystem } from './penalisedSystem';
import { restrictedLikelihood, restrictedSlope, type RestrictedLikelihood, type Slope } from './restrictedLikelihood';

/** What is to be climbed: a model, its equations, and which variances may leave zero. */
export type LikelihoodTask = {
  readonly system: PenalisedSystem;
  readonly model: MixedModel;
  /** Per factor: false holds its variance at zero for good. */
  readonly estimable: readonly boolean[];
  /** Mean square of the response. */
  readonly scale: number;
};

/** Where the climb ended. */
export type Climbed = {
  readonly at: RestrictedLikelihood;
  readonly iterations: number;
  /** False when the likelihood has no top within reach: it still rises as the residual vanishes. */
  readonly settled: boolean;
};

const MOST_STEPS = 200;
/** Relative error of the variances at which the climb ends. */
const CLOSE_ENOUGH = 1e-7;
/** A step this small is the last whatever came before it. */
const LAST_STEP = 1e-8;
/** A slope below this in every log variance is the top, however far a step would go. */
const FLAT = 1e-8;
/** A residual below this share of the mean square of the response counts as none. */
const NO_RESIDUAL = 1e-10;

type Visit = { readonly free: readonly number[]; readonly values: readonly number[]; readonly slope: Slope };

/**
 * The top of the restricted likelihood from the given variance ratios σ_k² / σ².
 *
 * A step is ℐ⁻¹ s with s the score and ℐ the average information plus a secant correction (symmetric rank one); a
 * variance it would carry below zero is held at 0, and the step is halved while it lowers the likelihood. A
 * variance at 0 is let go where the likelihood rises with it, in small designs also where it rises further out
 * only.
 *
 * It stops where the slope is nil, or where the next step would change no variance by more than 1e−7 of itself,
 * when no variance held at zero would rise; at the latest after 200 steps. Null when the fixed effects are not
 * estimable.
 *
 * Source: Gilmour, Thompson & Cullis 1995; Nocedal & Wright 2006, Numerical Optimization, section 6.2.
 *
 * @example Groups (1, 3), (5, 7), (9, 11) from a ratio of 1: the top is at 15 / 2.
 * const group = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const model = { response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [group] }
 * const task = { system: createPenalisedSystem(model), model, estimable: [true], scale: 35 / 3 }
 * const { at, settled } = climbLikelihood(task, Float64Array.of(1))
 * [at.ratios[0], at.residual, settled] // [7.5000, 2.0000, true]
 */
export function climbLikelihood(task: LikelihoodTask, ratios: Float64Array): Climbed | null {
  const start = restrictedLikelihood(task.system, task.model, ratios);
  if (start === null) return null;
  let at: RestrictedLikelihood = start;
  let last: Visit | null = null;
  let correction = new Float64Array(0);
  let lastChange = 0;
  for (let iterations = 1; iterations <= MOST_STEPS; iterations += 1) {
    if (at.residual <= NO_RESIDUAL * task.scale) return { at, iterations, settled: false };
    const visit: Visit = visitPoint(task, at);
    if (last === null || last.free.join() !== visit.free.join())
      correction = new Float64Array(visit.values.length ** 2);
    else learnCurvature(visit, last, correction);
    const { next, change }: Move = move(task, at, { ...visit, slope: corrected(visit.slope, correction) });
    last = change > 0.3 ? null : visit;
    at = next ?? at;
    // Steps shrink by about the same factor or faster, so the last two tell what the next would be.
    const left = lastChange < 0.3 && change < lastChange / 2 ? change ** 2 / (lastChange - change) : Infinity;
    lastChange = change;
    if (next !== null && change > LAST_STEP && left > CLOSE_ENOUGH) continue;
    const release = releaseBoundary(task, at) ?? leapBoundary(task, at);
    if (release === null) return { at, iterations, settled: change < 1e-3 };
    at = release;
    last = null;
    lastChange = 0;
  }
  return { at, iterations: MOST_STEPS, settled: false };
}

type Move = { readonly next: RestrictedLikelihood | null; readonly change: number };

/**
 * A step uphill, damped more and more where setting variances to zero turned the plain one downhill; `change` is the
 * plain step's.
 */
function move(task: LikelihoodTask, at: RestrictedLikelihood, visit: Visit): Move {
  let change = 0;
  const steepest = Math.max(...visit.values.map((value, j) => Math.abs(value * visit.slope.score[j])));
  if (steepest < FLAT) return { next: null, change };
  for (const damping of [0, 0.3, 3, 30, 300]) {
    const step = boundedStep(visit, damping);
    const size = Math.max(...step.map((value, j) => Math.abs(value) / visit.values[j]));
    if (damping === 0) change = size;
    const rise = step.reduce((sum, value, j) => sum + value * visit.slope.score[j], 0);
    const next = rise > 0 ? ascend(task, at, { free: visit.free, step }) : null;
    if (next !== null || change <= LAST_STEP) return { next, change };
  }
  return { next: null, change };
}

function visitPoint({ system }: LikelihoodTask, at: RestrictedLikelihood): Visit {
  const free = positions(at.ratios);
  return { free, values: [...free.map((k) => variance(at, k)), at.residual], slope: restrictedSlope(system, at, free) };
}

/**
 * Adds to the correction of the average information what the score did over the last step beyond its prediction
 * (symmetric rank one: Nocedal & Wright 2006, section 6.2). On incomplete data this turns linear convergence into a
 * faster one.
 */
function learnCurvature(visit: Visit, last: Visit, correction: Float64Array): void {
  const n = visit.values.length;
  const { score, information } = visit.slope;
  const moved = visit.values.map((value, k) => value - last.values[k]);
  const miss = moved.map((_, k) => {
    let predicted = 0;
    for (let l = 0; l < n; l += 1) predicted += (information[k * n + l] + correction[k * n + l]) * moved[l];
    return last.slope.score[k] - score[k] - predicted;
  });
  const along = miss.reduce((sum, value, k) => sum + value * moved[k], 0);
  if (!(Math.abs(along) > 1e-6 * Math.hypot(...miss) * Math.hypot(...moved))) return;
  for (let at = 0; at < n * n; at += 1) {
    correction[at] = correction[at] + (miss[Math.floor(at / n)] * miss[at % n]) / along;
  }
}

/** The slope with the corrected information, where that is still positive definite. */
function corrected({ score, information }: Slope, correction: Float64Array): Slope {
  const sum = information.map((value, at) => value + correction[at]);
  return choleskyFactor(Float64Array.from(sum), score.length) ? { score, information: sum } : { score, information };
}

const variance = (at: RestrictedLikelihood, k: number): number => at.ratios[k] * at.residual;
const positions = (ratios: Float64Array): number[] => [...ratios.keys()].filter((k) => ratios[k] > 0);

/** Newton step; a variance it would carry below zero is set to zero and the others step again, given that. */
function boundedStep({ slope: { score, information }, values }: Visit, damping: number): number[] {
  const n = values.length;
  const step = values.map(() => 0);
  const held = new Set<number>();
  for (let round = 0; round < n; round += 1) {
    const free = [...values.keys()].filter((k) => !held.has(k));
    const m = free.length;
    const a = Float64Array.from({ length: m * m }, (_, at) => information[free[Math.floor(at / m)] * n + free[at % m]]);
    const b = Float64Array.from(free, (k) => {
      let value = score[k];
      for (const h of held) value -= information[k * n + h] * step[h];
      return value;
    });
    for (let k = 0; k < m; k += 1) a[k * m + k] = a[k * m + k] * (1 + 1e-12 + damping);
    if (!choleskyFactor(a, m)) return values.map((value, k) => Math.sign(score[k]) * value * 0.5);
    choleskySolve(a, m, b);
    free.forEach((k, at) => (step[k] = b[at]));
    const below = free.filter((k) => k < n - 1 && values[k] + step[k] <= 0);
    if (below.length === 0) return step;
    for (const k of below) {
      held.add(k);
      step[k] = -values[k];
    }
  }
  return step;
}

/**
 * The point after the step, or after the largest halving of it that does not lower the likelihood; null when none
 * does.
 */
function ascend(
  task: LikelihoodTask,
  at: RestrictedLikelihood,
  { free, step }: { free: readonly number[]; step: readonly number[] },
): RestrictedLikelihood | null {
  for (let share = 1; share > 1e-6; share /= 2) {
    const residual = at.residual + share * step[free.length];
    if (residual <= 0) continue;
    const ratios = new Float64Array(at.ratios.length);
    free.forEach((k, j) => (ratios[k] = Math.max(0, variance(at, k) + share * step[j]) / residual));
    const next = restrictedLikelihood(task.system, task.model, ratios);
    if (next !== null && next.logLikelihood >= at.logLikelihood - 1e-12 * Math.max(1, Math.abs(at.logLikelihood)))
      return next;
  }
  return null;
}

/** Lets a variance held at zero go where the likelihood rises with it; null when none does. */
function releaseBoundary(task: LikelihoodTask, at: RestrictedLikelihood): RestrictedLikelihood | null {
  const held = [...at.ratios.keys()].filter((k) => at.ratios[k] === 0 && task.estimable[k]);
  if (held.length === 0) return null;
  const nearby = restrictedLikelihood(
    task.system,
    task.model,
    at.ratios.map((ratio, k) => (held.includes(k) ? 1e-7 : ratio)),
  );
  if (nearby === null) return null;
  const { score, information } = restrictedSlope(task.system, nearby, held);
  const n = held.length + 1;
  const rising = held.filter((_, j) => score[j] > 1e-6 * Math.sqrt(information[j * n + j]));
  for (let share = 1; share > 1e-6 && rising.length > 0; share /= 4) {
    const ratios = Float64Array.from(at.ratios);
    for (const k of rising) {
      const j = held.indexOf(k);
      ratios[k] = (share * score[j]) / information[j * n + j] / at.residual;
    }
    const next = restrictedLikelihood(task.system, task.model, ratios);
    if (next !== null && next.logLikelihood > at.logLikelihood) return next;
  }
  return null;
}

/** Columns up to which `leapBoundary` looks; larger designs have one top for all practical purposes. */
const SMALL_DESIGN = 150;

/**
 * In a small design the likelihood can fall as a variance leaves zero and yet rise above its start further out: looks
 * there for each variance held at zero, and gives the first higher point; null when there is none.
 */
function leapBoundary(
  { system, model, estimable }: LikelihoodTask,
  at: RestrictedLikelihood,
): RestrictedLikelihood | null {
  if (system.design.size > SMALL_DESIGN) return null;
  for (const k of at.ratios.keys()) {
    if (at.ratios[k] !== 0 || !estimable[k]) continue;
    for (const ratio of [0.05, 0.25, 1]) {
      const next = restrictedLikelihood(
        system,
        model,
        at.ratios.map((value, l) => (l === k ? ratio : value)),
      );
      if (next !== null && next.logLikelihood > at.logLikelihood + 1e-9) return next;
    }
  }
  return null;
}
