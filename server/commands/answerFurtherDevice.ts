import { inTransaction } from '#db/inTransaction';
import { answerDeviceRequest } from '#db/queries/answerDeviceRequest';
import { appendRecord } from '#db/queries/appendRecord';
import type { Device } from '#db/queries/findDevice';
import { getSeat } from '#db/queries/getSeat';
import { insertDevice } from '#db/queries/insertDevice';
import { listDeviceRequests } from '#db/queries/listDeviceRequests';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { ring } from './joinByCode';
import { seatName } from './seatName';

type Answer = { readonly device: Device; readonly requestId: string; readonly letIn: boolean };

/**
 * BL9: a further device is let in, or refused, by a device of the same seat and by nobody else; what is not asked of this
 * very seat is not there. The new device belongs to the same issue, so that it reads what the first one may read.
 */
export function answerFurtherDevice(runtime: Runtime, { device, requestId, letIn }: Answer): void {
  const { db, clock } = runtime;
  const seatId = device.owner ? null : device.seatId;
  inTransaction(db, () => {
    const at = clock.now();
    const request = listDeviceRequests(db, { seatId, now: at }).find((one) => one.id === requestId);
    if (!request) throw new DomainError('not-found');
    answerDeviceRequest(db, requestId, { approved: letIn, at });
    if (!letIn) return;
    const { id, tokenHash } = request;
    insertDevice(db, { id, tokenHash, owner: device.owner, seatId, createdAt: at, cameBy: 'approval', generation: device.generation });
    const seat = seatId === null ? null : getSeat(db, seatId);
    appendRecord(db, { evaluationId: seat?.evaluationId ?? null, at, actor: seat ? seatName(seat.id) : 'owner', kind: 'device-let-in', detail: '' });
  });
  if (seatId !== null) ring(runtime, seatId);
}
