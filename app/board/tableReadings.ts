import { readings } from '#lib/reconcile/sentences/readings';

const short: Readonly<Record<string, string>> = { 'fewer than 1': '<1', 'at least 99': '≥99' };

/** A chance for a table of readings of 100: "61", "<1", "≥99"; never 0 and never 100. */
export function tableReadings(chance: number): string {
  const words = readings(chance);
  return short[words] ?? words;
}
