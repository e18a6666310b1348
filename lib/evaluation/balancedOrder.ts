/**
 * A balanced order of `count` things for the seat at `position`: rows of a Williams design (each thing comes equally
 * often at each place, and for an even count follows each other thing once), so that order effects average out over
 * seats. Source: Williams, E. J. (1949), Australian Journal of Scientific Research A 2, 149–168 (construction from memory).
 * Example: balancedOrder(4, 0) is [0, 1, 3, 2]; balancedOrder(4, 1) is [1, 2, 0, 3].
 */
export function balancedOrder(count: number, position: number): number[] {
  const firstRow = Array.from({ length: count }, (_, place) => (place % 2 === 1 ? (place + 1) / 2 : (count - place / 2) % count));
  const row = firstRow.map((thing) => (thing + position) % count);
  // An odd count needs the mirrored rows as well; they come after the plain ones.
  const mirrored = count % 2 === 1 && Math.floor(position / count) % 2 === 1;
  return mirrored ? row.toReversed() : row;
}
