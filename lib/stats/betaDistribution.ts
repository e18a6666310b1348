import { betaKernel, regularisedBeta, type BetaArguments } from './regularisedBeta';
import { tailQuantile } from './tailQuantile';

/** The two shapes a and b of a beta distribution, both > 0; its mean is a / (a + b). */
export type BetaShapes = { readonly shape1: number; readonly shape2: number };

/**
 * Lower tail of the beta distribution with density x^(a−1) (1−x)^(b−1) / B(a, b) on 0 … 1: F(x) = I_x(a, b).
 *
 * Out: 0 for x ≤ 0, 1 for x ≥ 1. Where x is so near 1 that 1 − x loses its digits, give both to `regularisedBeta`.
 * Source: Abramowitz & Stegun 1964, 26.5.1.
 *
 * @example For whole shapes it is a binomial sum: at least 2 of 4 with chance 0.4.
 * betaCdf(0.4, { shape1: 2, shape2: 3 }) // 0.5248
 * betaCdf(0.3, { shape1: 1, shape2: 1 }) // 0.3
 */
export function betaCdf(x: number, shapes: BetaShapes): number {
  return regularisedBeta({ ...shapes, x, complement: 1 - x }).lower;
}

/**
 * Upper tail 1 − I_x(a, b) = I_(1−x)(b, a); small chances keep their digits.
 *
 * @example Shape 1 and b: (1 − x)^b.
 * betaUpperTail(0.9, { shape1: 1, shape2: 6 }) // 1.0000e-6
 * betaUpperTail(0.4, { shape1: 2, shape2: 3 }) // 0.4752
 */
export function betaUpperTail(x: number, shapes: BetaShapes): number {
  return regularisedBeta({ ...shapes, x, complement: 1 - x }).upper;
}

/**
 * The x below which a beta variable falls with probability p: the inverse of `betaCdf`.
 *
 * In: p from 0 to 1. Out: 0 … 1; 0 at p ≤ 0, 1 at p ≥ 1.
 *
 * @example
 * betaQuantile(0.5, { shape1: 2, shape2: 8 }) // 0.1796196120
 * betaQuantile(0.5248, { shape1: 2, shape2: 3 }) // 0.4000
 */
export function betaQuantile(p: number, shapes: BetaShapes): number {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  return atLogit(shapes, betaLogitQuantile({ p, q: 1 - p }, shapes)).x;
}

/**
 * The quantile as log(x / (1 − x)), so that x near 0 and x near 1 keep their digits alike.
 *
 * In: p and q = 1 − p, both strictly between 0 and 1, given apart for the same reason. Out: the whole real line.
 *
 * @example Equal shapes are symmetric about ½; with shapes 1 and 1, x = p.
 * betaLogitQuantile({ p: 0.5, q: 0.5 }, { shape1: 4, shape2: 4 }) // 0
 * betaLogitQuantile({ p: 0.75, q: 0.25 }, { shape1: 1, shape2: 1 }) // 1.0986
 */
export function betaLogitQuantile({ p, q }: { readonly p: number; readonly q: number }, shapes: BetaShapes): number {
  return tailQuantile({
    p,
    q,
    tails: (u) => regularisedBeta(atLogit(shapes, u)),
    density: (u) => betaKernel(atLogit(shapes, u)),
    start: Math.log(shapes.shape1 / shapes.shape2),
  });
}

function atLogit(shapes: BetaShapes, u: number): BetaArguments {
  return { ...shapes, x: 1 / (1 + Math.exp(-u)), complement: 1 / (1 + Math.exp(u)) };
}
