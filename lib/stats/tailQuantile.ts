import type { Tails } from './regularisedGamma';

/**
 * An equation F(u) = p for a distribution function F on the whole real line, with what Newton's method needs to
 * solve it.
 */
export type TailQuantileProblem = {
  /** Lower-tail probability sought, strictly between 0 and 1. */
  readonly p: number;
  /** Its complement, given apart so that neither loses digits. */
  readonly q: number;
  /** Increasing distribution function on the whole real line. */
  readonly tails: (u: number) => Tails;
  /** F′(u), the density in u. */
  readonly density: (u: number) => number;
  /** Where the search begins; any finite number will do, a near one saves steps. */
  readonly start: number;
};

/**
 * The u with F(u) = p.
 *
 * Newton's method on the logarithm of the smaller tail, u ← u − (log F(u) − log p) · F(u) / F′(u), kept inside a
 * bracket that shrinks at every step: a step that leaves it becomes a halving, and before both ends are known, a
 * stride that doubles.
 * Out: u to about 4e−16 of itself (or of 1), after at most 500 steps.
 *
 * Source: safeguarded Newton iteration, common practice (Dennis & Schnabel 1983).
 *
 * @example The logistic distribution, whose quantile is log(p / q).
 * const tails = (u) => ({ lower: 1 / (1 + Math.exp(-u)), upper: 1 / (1 + Math.exp(u)) })
 * const density = (u) => tails(u).lower * tails(u).upper
 * tailQuantile({ p: 0.75, q: 0.25, tails, density, start: 0 }) // 1.098612289
 */
export function tailQuantile(problem: TailQuantileProblem): number {
  const byLower = problem.p <= problem.q;
  const target = Math.log(byLower ? problem.p : problem.q);
  const tailAt = (u: number): number => (byLower ? problem.tails(u).lower : problem.tails(u).upper);
  const sign = byLower ? 1 : -1;
  let low = -Infinity;
  let high = Infinity;
  let u = problem.start;
  let stride = 1;
  for (let step = 0; step < 500; step += 1) {
    const tail = tailAt(u);
    const excess = sign * (Math.log(tail) - target);
    if (excess === 0) return u;
    if (excess < 0) low = u;
    else high = u;
    const newton = u - (excess * tail) / problem.density(u);
    const next = newton > low && newton < high ? newton : between({ low, high, u, stride });
    if (low === -Infinity || high === Infinity) stride *= 2;
    if (Math.abs(next - u) <= 4e-16 * Math.max(1, Math.abs(u))) return next;
    u = next;
  }
  return u;
}

function between({ low, high, u, stride }: { low: number; high: number; u: number; stride: number }): number {
  if (low === -Infinity) return u - stride;
  if (high === Infinity) return u + stride;
  return (low + high) / 2;
}
