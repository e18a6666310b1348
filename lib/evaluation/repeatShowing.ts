/**
 * Which puppy comes to the table a second time: one of the first half, so that others stand between its two showings.
 * Null below four puppies, where everybody would remember.
 *
 * @param draw hexadecimal digits drawn by the caller
 */
export function repeatShowing(order: readonly string[], draw: string): string | null {
  if (order.length < 4) return null;
  const firstHalf = order.slice(0, Math.floor(order.length / 2));
  return firstHalf[Number.parseInt(draw.slice(0, 8), 16) % firstHalf.length] ?? null;
}
