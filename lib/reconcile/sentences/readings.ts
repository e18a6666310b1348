/** A chance as whole readings of 100, never a claim of certainty. Example: 0.613 is "61 of 100", 0.998 is "at least 99 of 100". */
export function readings(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole < 1) return 'fewer than 1 of 100';
  if (whole > 99) return 'at least 99 of 100';
  return `${whole} of 100`;
}
