/** exp(power · log), scaled so that the weights sum to their number. */
export function relativeWeights(logs: Float64Array, power: number): Float64Array {
  const highest = logs.reduce((most, log) => Math.max(most, log), -Infinity);
  const weights = logs.map((log) => Math.exp(power * (log - highest)));
  const mean = weights.reduce((sum, weight) => sum + weight, 0) / weights.length;
  return weights.map((weight) => weight / mean);
}

/** (Σw)² / Σw² (Kish). */
export function effectiveDraws(weights: Float64Array): number {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return (sum * sum) / weights.reduce((total, weight) => total + weight * weight, 0);
}
