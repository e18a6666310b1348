const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** The hour and minute on the reader's own clock: "14:20". */
export function clockWords(milliseconds: number): string {
  return clock.format(milliseconds);
}

const moment = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
});

/** A moment on the reader's own clock: "12 September 2026 at 14:20". */
export function momentWords(milliseconds: number): string {
  return moment.format(milliseconds);
}

const recent = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', hour: '2-digit', minute: '2-digit' });

/** A moment of this year: "12 September at 14:20". */
export function recentWords(milliseconds: number): string {
  return recent.format(milliseconds);
}

const words = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });

/** A calendar day (YYYY-MM-DD) in words: "12 September 2026"; what is no day comes back as it is. */
export function dayWords(day: string): string {
  const at = Date.parse(`${day}T00:00:00Z`);
  return Number.isNaN(at) ? day : words.format(at);
}

/** Hours since a meal in words: "half an hour", "one hour", "3 hours". */
export function mealWords(hours: number): string {
  if (hours === 0.5) return 'half an hour';
  return hours === 1 ? 'one hour' : `${hours} hours`;
}

/** Today as a calendar day (YYYY-MM-DD) where the device is. Call it in an event or a state initialiser, never while drawing. */
export function todayHere(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
