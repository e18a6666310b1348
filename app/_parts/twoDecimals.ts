/** A figure with two decimals and a true minus: "0.36", "−0.79". */
export function twoDecimals(value: number): string {
  return value.toFixed(2).replace('-', '−');
}
