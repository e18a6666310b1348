import { choleskyFactor, choleskyInverse } from '#lib/stats/cholesky';
import type { MixedModelFit } from '#lib/stats/fitMixedModel';
import type { MixedModel } from '#lib/stats/mixedModel';
import { restrictedLikelihood, restrictedSlope } from '#lib/stats/restrictedLikelihood';

/** Covariance of two estimated variances, by factor name or 'residual'; 0 for one that was left out or lies at the boundary. */
export type Covariance = (first: string, second: string) => number;

/**
 * Large-sample covariances of REML variances: the inverse of the average information at the estimates.
 * Source: Gilmour, Thompson & Cullis 1995. Variances at the boundary count as known.
 */
export function componentCovariance(fit: MixedModelFit, model: MixedModel): Covariance {
  const free = [...fit.factors.keys()].filter((factor) => (fit.factors[factor]?.variance ?? 0) > 0);
  const size = free.length + 1;
  const ratios = Float64Array.from(fit.factors, ({ variance }) => variance / fit.residual);
  const at = restrictedLikelihood(fit.system, model, ratios);
  if (at === null) return () => 0;
  const { information } = restrictedSlope(fit.system, at, free);
  if (!choleskyFactor(information, size)) return () => 0;
  const inverse = choleskyInverse(information, size);
  const places = new Map([
    ...free.map((factor, place): [string, number] => [fit.factors[factor]?.name ?? '', place]),
    ['residual', free.length],
  ]);
  return (first, second) => {
    const [row, column] = [places.get(first), places.get(second)];
    return row === undefined || column === undefined ? 0 : (inverse[row * size + column] ?? 0);
  };
}
