import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import type { Device } from '#db/queries/findDevice';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, SeatFacts, Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';

type Asker = { readonly runtime: Runtime; readonly device: Device };

export type Access = { readonly facts: EvaluationFacts; readonly viewer: Viewer };

/**
 * Who asks, for one evaluation. The owner holds her own seat by her session; a seat's device sees its own evaluation
 * only: any other answers not-found, as if it were not there.
 */
export function accessTo({ runtime, device }: Asker, evaluationId: string): Access {
  const facts = getEvaluationFacts(runtime.db, evaluationId);
  const seat = facts.seats.find((one) => (device.owner ? one.owner : one.id === device.seatId));
  if (!seat && !device.owner) throw new DomainError('not-found');
  return { facts, viewer: { owner: device.owner, seatId: seat?.id ?? null, leads: device.owner || (seat?.leads ?? false) } };
}

/** The asker's own seat in an evaluation; not-allowed when it has none. */
export function ownSeat({ facts, viewer }: Access): SeatFacts {
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  if (!seat) throw new DomainError('not-allowed');
  return seat;
}
