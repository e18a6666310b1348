import { insertLink } from '#db/queries/insertLink';
import { revokeSeatDevices } from '#db/queries/revokeSeatDevices';
import { DomainError } from '#lib/errors';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

/**
 * BL9: for a seat whose device is lost. The old device's session ends at once; whoever opens the new link writes for the
 * seat, reads none of its earlier answers before reveal, and every result says that the seat was reissued.
 */
export function reissueSeat(runtime: Runtime, { evaluationId, seatId }: { readonly evaluationId: string; readonly seatId: string }): string {
  const done = writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (seat.owner || seat.issued === 0) throw new DomainError('not-allowed');
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    const token = runtime.random.token();
    const devices = revokeSeatDevices(runtime.db, seatId, at);
    insertLink(runtime.db, { tokenHash: hashToken(token), kind: 'seat', seatId, createdAt: at });
    note('owner', 'seat-reissued', seatName(seat.id));
    touchAll();
    return { token, devices };
  });
  for (const device of done.devices) runtime.hub.dismiss(device);
  return done.token;
}
