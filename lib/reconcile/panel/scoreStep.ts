/** Steps a score may move in, coarsest first, as one over the step; scores that fit none are taken to be unrounded. */
const STEPS = [1, 2, 4, 10, 20, 100];

/**
 * The step of the scale on which every one of the values lies: 1 for whole scores, 0.5 for halves, …, 0 when they follow none.
 * No values: 1. Worked example: [3, 4.5, 6] lie on steps of 0.5.
 */
export function scoreStep(values: readonly number[]): number {
  const perPoint = STEPS.find((steps) =>
    values.every((value) => Math.abs(value * steps - Math.round(value * steps)) < 1e-9 * steps),
  );
  return perPoint === undefined ? 0 : 1 / perPoint;
}

/** Variance of the error of rounding to a step: that of a uniform on a step (Sheppard 1898). */
export function roundingVariance(step: number): number {
  return step ** 2 / 12;
}
