/** A chance for a table of readings of 100: "61", "<1", "≥99"; never 0 and never 100. */
export function tableReadings(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole < 1) return '<1';
  return whole > 99 ? '≥99' : String(whole);
}
