import type { Device } from '#db/queries/devices';
import { getSeat } from '#db/queries/seats';
import { sessionOver } from '#lib/access/sessionLife';
import type { Membership } from './live/socketIo';
import type { Runtime } from './runtime';

/** What a device's socket may hear: the owner every evaluation and her own seat; a seat its own evaluation and itself. */
export function membershipOf(runtime: Runtime, device: Device): Membership | null {
  const { hub, clock } = runtime;
  const over = () => runtime.demo === null && sessionOver({ ...device, seenAt: clock.now() }, clock.now());
  if (device.owner) return { hub, over, deviceId: device.id, wants: ({ seat }) => seat === null || seat.owner };
  if (device.seatId === null) return null;
  const { id, evaluationId } = getSeat(runtime.db, device.seatId);
  return {
    hub,
    over,
    deviceId: device.id,
    wants: ({ seat, event }) => event.evaluation === evaluationId && (seat === null || seat.id === id),
  };
}
