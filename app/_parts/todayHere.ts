/** Today as a calendar day (YYYY-MM-DD) where the device is. Call it in an event or a state initialiser, never while drawing. */
export function todayHere(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
