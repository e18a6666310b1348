/** A difference with its sign, in points: "+0.62", "−0.10", "0.00". */
export function signed(value: number, digits = 2): string {
  const size = Math.abs(value).toFixed(digits);
  if (Number(size) === 0) return size;
  return value < 0 ? `−${size}` : `+${size}`;
}

/** A figure with two decimals and a true minus: "0.36", "−0.79". */
export function twoDecimals(value: number): string {
  return value.toFixed(2).replace('-', '−');
}
