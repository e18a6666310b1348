const narrowest = 0.05;

/**
 * The band a published ratio stands for: never narrower than 5 per cent either way of its middle, because neither standards
 * nor pictures are surer than that (common practice). Worked example: 1.11 to 1.11 gives 1.0545 to 1.1655.
 */
export function figureBand([low, high]: readonly [low: number, high: number]): { readonly low: number; readonly high: number } {
  const middle = (low + high) / 2;
  return { low: Math.min(low, middle * (1 - narrowest)), high: Math.max(high, middle * (1 + narrowest)) };
}
