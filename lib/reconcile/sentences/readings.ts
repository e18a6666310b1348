/** How many of 100 readings of the scores a chance is. */
export type Names = Readonly<Record<string, string>>;

/**
 * A chance as whole readings of 100, never "100" nor "0": 0.6 is "60", 0.998 is "at least 99", 0.002 "fewer than 1".
 * @param closeBelow a chance below this mark never rounds up to it, so that a close call does not read like a clear one.
 */
export function readings(chance: number, closeBelow = 0.8): string {
  const rounded = Math.round(100 * chance);
  if (rounded >= 100) return 'at least 99';
  if (rounded < 1) return 'fewer than 1';
  const mark = Math.round(100 * closeBelow);
  return String(chance < closeBelow ? Math.min(rounded, mark - 1) : rounded);
}

/** The name of a key, or the key itself when it has none. */
export function nameOf(names: Names, key: string): string {
  return (Object.hasOwn(names, key) ? names[key] : undefined) ?? key;
}

/** First letter as at the start of a sentence. */
export function capitalised(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** "A", "A and B", "A, B and C". */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;
}
