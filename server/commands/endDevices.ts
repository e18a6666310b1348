import { inTransaction } from '#db/inTransaction';
import { appendRecord } from '#db/queries/appendRecord';
import type { Device } from '#db/queries/findDevice';
import { listDevices } from '#db/queries/listDevices';
import { revokeDevice } from '#db/queries/revokeDevice';
import { revokeSeatDevices } from '#db/queries/revokeSeatDevices';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { ring } from './joinByCode';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

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
    appendRecord(db, { evaluationId: null, at, actor: 'owner', kind: 'owner-sessions-ended', detail: `${others.length}` });
  });
  for (const { id } of others) hub.dismiss(id);
}
