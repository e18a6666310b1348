import { betaLogitQuantile } from './betaDistribution';
import { regularisedBeta, type BetaArguments } from './regularisedBeta';

export type FDegrees = { readonly df1: number; readonly df2: number };

/** Lower tail of the F distribution: I of df1 x / (df1 x + df2). Worked example: fCdf(1000, { df1: 2, df2: 2 }) = 0.999000999000999. */
export function fCdf(x: number, degrees: FDegrees): number {
  return regularisedBeta(asBeta(x, degrees)).lower;
}

export function fUpperTail(x: number, degrees: FDegrees): number {
  return regularisedBeta(asBeta(x, degrees)).upper;
}

/** The x with lower-tail probability p. Worked example: fQuantile(0.975, { df1: 5, df2: 15 }) = 3.5764153492790602. */
export function fQuantile(p: number, { df1, df2 }: FDegrees): number {
  if (p <= 0) return 0;
  if (p >= 1) return Infinity;
  return (df2 / df1) * Math.exp(betaLogitQuantile({ p, q: 1 - p }, { shape1: df1 / 2, shape2: df2 / 2 }));
}

function asBeta(x: number, { df1, df2 }: FDegrees): BetaArguments {
  const shapes = { shape1: df1 / 2, shape2: df2 / 2 };
  if (!(x > 0)) return { ...shapes, x: 0, complement: 1 };
  if (x === Infinity) return { ...shapes, x: 1, complement: 0 };
  const total = df1 * x + df2;
  return { ...shapes, x: (df1 * x) / total, complement: df2 / total };
}
