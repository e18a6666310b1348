const dayMs = 86_400_000;

/** Whole days from one calendar day (YYYY-MM-DD) to another; negative when it lies before. */
export function ageInDays(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / dayMs);
}
