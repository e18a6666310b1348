import { inTransaction } from '#db/inTransaction';
import { dropSeatLinks } from '#db/queries/dropSeatLinks';
import { findDevice } from '#db/queries/findDevice';
import { findDeviceRequest } from '#db/queries/findDeviceRequest';
import { getSeat } from '#db/queries/getSeat';
import { insertDevice } from '#db/queries/insertDevice';
import { insertDeviceRequest } from '#db/queries/insertDeviceRequest';
import { takeLink } from '#db/queries/takeLink';
import { DomainError } from '#lib/errors';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { announceJoin, recordJoin } from './joinByLink';
import { codeLife } from './makeSpokenCode';
import { hashSpoken } from './spokenSecret';
import { writeEvaluation } from './writeEvaluation';

/** `waiting`: the secret is worth nothing until the seat's first device has let this one in. */
export type Joined = { readonly secret: string; readonly waiting: boolean };

/**
 * Exchanges a spoken code: for a seat's session, or for a request that its first device is asked to approve (BL9). Unknown,
 * used and late codes are all one answer.
 */
export function joinByCode(runtime: Runtime, { code, secret }: { readonly code: string; /** Of the session to be. */ readonly secret: string }): Joined {
  const { db, random, clock } = runtime;
  const id = random.id();
  const tokenHash = hashToken(secret);
  // Asked again because the answer was lost: this very call has been let in, or waits to be.
  if (findDevice(db, tokenHash)) return { secret, waiting: false };
  if (findDeviceRequest(db, tokenHash)) return { secret, waiting: true };
  const link = inTransaction(db, () => {
    const at = clock.now();
    const taken = takeLink(db, hashSpoken(code), at);
    if (!taken) throw new DomainError('wrong-secret');
    if (taken.kind === 'further') {
      insertDeviceRequest(db, { id, tokenHash, seatId: taken.seatId, digits: digitsOf(random.id()), askedAt: at, expiresAt: at + codeLife });
    } else if (taken.seatId !== null) {
      insertDevice(db, { id, tokenHash, owner: false, seatId: taken.seatId, createdAt: at, cameBy: 'code' });
      dropSeatLinks(db, taken.seatId);
      recordJoin(db, { seatId: taken.seatId, at });
    }
    return taken;
  });
  const waiting = link.kind === 'further';
  if (link.seatId !== null) {
    if (waiting) ring(runtime, link.seatId);
    else announceJoin(runtime, link.seatId);
  }
  return { secret, waiting };
}

/** The seat's own devices look who asks. */
export function ring(runtime: Runtime, seatId: string): void {
  writeEvaluation(runtime, getSeat(runtime.db, seatId).evaluationId, ({ touchSeat }) => touchSeat(seatId));
}

/** Four digits of a fresh id, to be compared by eye: enough to tell one's own device from a stranger's that asks at the same time. */
function digitsOf(id: string): string {
  return String(Number.parseInt(id.slice(0, 8), 16) % 10_000).padStart(4, '0');
}
