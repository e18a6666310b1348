import { betaKernel, regularisedBeta, type BetaArguments } from './regularisedBeta';
import { tailQuantile } from './tailQuantile';

export type BetaShapes = { readonly shape1: number; readonly shape2: number };

/** Lower tail I_x(a, b) of the beta distribution. Worked example: betaCdf(0.4, { shape1: 2, shape2: 3 }) = 0.5248. */
export function betaCdf(x: number, shapes: BetaShapes): number {
  return regularisedBeta({ ...shapes, x, complement: 1 - x }).lower;
}

export function betaUpperTail(x: number, shapes: BetaShapes): number {
  return regularisedBeta({ ...shapes, x, complement: 1 - x }).upper;
}

/** The x with lower-tail probability p. Worked example: betaQuantile(0.5, { shape1: 2, shape2: 8 }) = 0.179619611980361. */
export function betaQuantile(p: number, shapes: BetaShapes): number {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  return atLogit(shapes, betaLogitQuantile({ p, q: 1 - p }, shapes)).x;
}

/** log(x / (1 - x)) of the quantile, for p and q = 1 - p strictly between 0 and 1: both ends keep their digits. */
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
