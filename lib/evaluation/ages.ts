const dayMs = 86_400_000;

/** Whole days from one calendar day (YYYY-MM-DD) to another; negative when it lies before. */
export function ageInDays(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / dayMs);
}

type FollowUp = { readonly key: 'twelve-weeks' | 'six-months' | 'twelve-months' | 'two-years'; readonly day: string };

/** When a puppy is looked at again: at twelve weeks, at six and twelve months, and at two years. Days as YYYY-MM-DD. */
export function followUpDates(whelpedOn: string): readonly FollowUp[] {
  return [
    { key: 'twelve-weeks', day: dayAfter(whelpedOn, 84) },
    { key: 'six-months', day: monthAfter(whelpedOn, 6) },
    { key: 'twelve-months', day: monthAfter(whelpedOn, 12) },
    { key: 'two-years', day: monthAfter(whelpedOn, 24) },
  ];
}

/** The calendar day so many days after another. */
export function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** The same day of a later month, or that month's last when it is shorter. */
function monthAfter(day: string, months: number): string {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const last = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(date, last))).toISOString().slice(0, 10);
}
