import { appendRecord } from '#db/queries/appendRecord';
import type { Device } from '#db/queries/findDevice';
import { findLink } from '#db/queries/findLink';
import { getSeat } from '#db/queries/getSeat';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';

/**
 * One browser holds one place. When the owner opens another seat's link or code in hers, the attempt stands in the record of
 * that evaluation, where the seat itself can read it; the link is not used up.
 */
export function refuseSecondPlace({ db, clock }: Runtime, device: Device, tokenHash: string): never {
  if (device.owner) {
    const seatId = findLink(db, tokenHash)?.seatId ?? null;
    const seat = seatId === null ? null : getSeat(db, seatId);
    const detail = seat ? `in the owner’s browser: ${seatName(seat.id)}` : 'in the owner’s browser';
    appendRecord(db, { evaluationId: seat?.evaluationId ?? null, at: clock.now(), actor: 'owner', kind: 'link-refused', detail });
  }
  throw new DomainError('in-use');
}
