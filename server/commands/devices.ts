import {
  answerDeviceRequest,
  type Device,
  insertDevice,
  listDeviceRequests,
  listDevices,
  revokeDevice,
  revokeSeatDevices,
} from '#db/queries/devices';
import { appendRecord } from '#db/queries/record';
import { getSeat } from '#db/queries/seats';
import { inTransaction } from '#db/transaction';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { seatName, writeEvaluation } from '../write/writeEvaluation';
import { ring } from './joining';

type Seat = { readonly evaluationId: string; readonly seatId: string };

/** The owner ends every session of a seat, sockets included. Its way back is the seat issued again. */
export function endSeatDevices(runtime: Runtime, { evaluationId, seatId }: Seat): void {
  const devices = writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (seat.owner || !seat.joined) throw new DomainError('not-allowed');
    note('owner', 'seat-ended', seatName(seat.id));
    touchAll();
    return revokeSeatDevices(runtime.db, seatId, at);
  });
  for (const device of devices) runtime.hub.dismiss(device);
}

/** A device ends another of its own seat, or of the owner. */
export function endOwnDevice(runtime: Runtime, asker: Device, deviceId: string): void {
  const seatId = asker.owner ? null : asker.seatId;
  if (!listDevices(runtime.db, seatId).some((one) => one.id === deviceId)) throw new DomainError('not-found');
  revokeDevice(runtime.db, deviceId, runtime.clock.now());
  runtime.hub.dismiss(deviceId);
  if (seatId !== null) ring(runtime, seatId);
}

/** Every session of the owner but this one. */
export function endOtherOwnerDevices(runtime: Runtime, kept: Device): void {
  const { db, clock, hub } = runtime;
  const others = listDevices(db, null).filter((one) => one.id !== kept.id);
  const at = clock.now();
  inTransaction(db, () => {
    for (const { id } of others) revokeDevice(db, id, at);
    appendRecord(db, {
      evaluationId: null,
      at,
      actor: 'owner',
      kind: 'owner-sessions-ended',
      detail: `${others.length}`,
    });
  });
  for (const { id } of others) hub.dismiss(id);
}

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
    insertDevice(db, {
      id,
      tokenHash,
      owner: device.owner,
      seatId,
      createdAt: at,
      cameBy: 'approval',
      generation: device.generation,
    });
    const seat = seatId === null ? null : getSeat(db, seatId);
    appendRecord(db, {
      evaluationId: seat?.evaluationId ?? null,
      at,
      actor: seat ? seatName(seat.id) : 'owner',
      kind: 'device-let-in',
      detail: '',
    });
  });
  if (seatId !== null) ring(runtime, seatId);
}
