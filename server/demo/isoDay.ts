/** The day of a moment, in UTC: YYYY-MM-DD. */
export const isoDay = (at: number): string => new Date(at).toISOString().slice(0, 10);
