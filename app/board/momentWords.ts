const moment = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', hour: '2-digit', minute: '2-digit' });

/** A moment on the reader's own clock: "12 September 2026 at 14:20". */
export function momentWords(milliseconds: number): string {
  return moment.format(milliseconds);
}
