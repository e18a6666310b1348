/**
 * A balanced order of `count` things for the seat at `position`: rows of a Williams design (each thing comes equally
 * often at each place, and for an even count follows each other thing once), so that order effects average out over
 * seats. Source: Williams, E. J. (1949), Australian Journal of Scientific Research A 2, 149–168 (construction from memory).
 * Example: balancedOrder(4, 0) is [0, 1, 3, 2]; balancedOrder(4, 1) is [1, 2, 0, 3].
 */
export function balancedOrder(count: number, position: number): number[] {
  const firstRow = Array.from({ length: count }, (_, place) =>
    place % 2 === 1 ? (place + 1) / 2 : (count - place / 2) % count,
  );
  const row = firstRow.map((thing) => (thing + position) % count);
  // An odd count needs the mirrored rows as well; they come after the plain ones.
  const mirrored = count % 2 === 1 && Math.floor(position / count) % 2 === 1;
  return mirrored ? row.toReversed() : row;
}

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
