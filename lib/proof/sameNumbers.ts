/**
 * How far a number may lie from the one stored: a millionth of its size, or of one point near zero. Math.exp, Math.log and
 * their kin are not fixed to the last bit by the language, and differ between versions of Node; sums of thousands of terms carry
 * that a few digits further. Nothing that a reader sees, two or three digits, moves within this.
 */
const tolerance = 1e-6;

/** Whether two results are the same but for the last bits of their numbers: same keys, same words, same order. */
export function sameNumbers(one: unknown, other: unknown): boolean {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= tolerance * Math.max(1, Math.abs(one), Math.abs(other));
  if (typeof one !== 'object' || one === null || typeof other !== 'object' || other === null) return one === other;
  const [left, right] = [Object.entries(one), new Map<string, unknown>(Object.entries(other))];
  return (
    Array.isArray(one) === Array.isArray(other) &&
    left.length === right.size &&
    left.every(([key, value]) => right.has(key) && sameNumbers(value, right.get(key)))
  );
}
