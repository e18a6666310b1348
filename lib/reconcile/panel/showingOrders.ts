import type { Snapshot } from '#lib/contract/snapshot';
import { balancedOrder } from '#lib/evaluation/showingOrders';

/** Puppies in the order each seat met them: the table's for all, in a photograph round each seat's own. */
export function showingOrders(snapshot: Snapshot): Record<string, string[]> {
  const shown = snapshot.showings
    .filter((showing) => !showing.repeat)
    .toSorted((one, other) => one.place - other.place);
  const orderOf = (position: number) =>
    snapshot.medium === 'table' ? shown : balancedOrder(shown.length, position).flatMap((at) => shown[at] ?? []);
  return Object.fromEntries(
    snapshot.seats.map((seat) => [seat.id, orderOf(seat.position).map((showing) => showing.puppyId)]),
  );
}
