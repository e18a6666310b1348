import { getEvaluationFacts } from '#db/queries/evaluations';
import type { Device } from '#db/queries/devices';
import { DomainError } from '#lib/errors';
import type { ViewerFace } from '#lib/contract/evaluationView';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { seatOf, viewerOf } from '#lib/evaluation/seats';
import type { Runtime } from '../runtime';

type Asker = { readonly runtime: Runtime; readonly device: Device };

export type Access = { readonly facts: EvaluationFacts; readonly viewer: ViewerFace };

/**
 * Who asks, for one evaluation. The owner holds her own seat by her session; a seat's device sees its own evaluation
 * only: any other answers not-found, as if it were not there.
 */
export function accessTo({ runtime, device }: Asker, evaluationId: string): Access {
  const facts = getEvaluationFacts(runtime.db, evaluationId);
  const seat = seatOf(facts, device);
  if (!seat && !device.owner) throw new DomainError('not-found');
  return { facts, viewer: viewerOf(device.owner, seat) };
}

/** The asker's own seat in an evaluation; not-allowed when it has none. */
export function ownSeat({ facts, viewer }: Access): SeatFacts {
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  if (!seat) throw new DomainError('not-allowed');
  return seat;
}

/** For whoever prepares: the owner, or an organiser. */
export function preparing(asker: Asker, evaluationId: string): Access {
  const access = accessTo(asker, evaluationId);
  if (!access.viewer.owner && !access.viewer.organises) throw new DomainError('not-allowed');
  return access;
}

/** For whoever reads what is revealed; whether anything is, the procedure finds out. */
export function reading(asker: Asker, evaluationId: string): Access {
  const access = accessTo(asker, evaluationId);
  if (!access.viewer.reads) throw new DomainError('not-allowed');
  return access;
}
