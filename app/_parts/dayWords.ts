const words = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });

/** A calendar day (YYYY-MM-DD) in words: "12 September 2026"; what is no day comes back as it is. */
export function dayWords(day: string): string {
  const at = Date.parse(`${day}T00:00:00Z`);
  return Number.isNaN(at) ? day : words.format(at);
}
