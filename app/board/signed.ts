/** A difference with its sign, in points: "+0.62", "−0.10", "0.00". */
export function signed(value: number, digits = 2): string {
  const size = Math.abs(value).toFixed(digits);
  if (Number(size) === 0) return size;
  return value < 0 ? `−${size}` : `+${size}`;
}
