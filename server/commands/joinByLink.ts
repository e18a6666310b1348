import { inTransaction } from '#db/inTransaction';
import type { Db } from '#db/open';
import { appendRecord } from '#db/queries/appendRecord';
import { dropSeatLinks } from '#db/queries/dropSeatLinks';
import { findDevice } from '#db/queries/findDevice';
import { getSeat } from '#db/queries/getSeat';
import { insertDevice } from '#db/queries/insertDevice';
import { takeLink } from '#db/queries/takeLink';
import { DomainError } from '#lib/errors';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

/**
 * Exchanges a one-time link for a device's secret: the owner's from the terminal, or a seat's. Unknown, used and
 * replaced links are all one answer.
 */
export function joinByLink(runtime: Runtime, { token, secret }: { readonly token: string; /** Of the session to be. */ readonly secret: string }): string {
  const { db, random, clock } = runtime;
  // Asked again because the answer was lost: this very call has been let in.
  if (findDevice(db, hashToken(secret))) return secret;
  const deviceId = random.id();
  const taken = inTransaction(db, () => {
    const at = clock.now();
    const link = takeLink(db, hashToken(token), at);
    if (!link) throw new DomainError('link-dead');
    const owner = link.kind === 'owner';
    insertDevice(db, { id: deviceId, tokenHash: hashToken(secret), owner, seatId: link.seatId, createdAt: at, cameBy: 'link' });
    if (link.seatId !== null) {
      dropSeatLinks(db, link.seatId);
      recordJoin(db, { seatId: link.seatId, at });
    }
    if (owner) appendRecord(db, { evaluationId: null, at, actor: 'owner', kind: 'owner-signed-in', detail: 'by the link from the terminal' });
    return link;
  });
  if (taken.seatId !== null) announceJoin(runtime, taken.seatId);
  return secret;
}

/** The record says it within the transaction that lets the device in: no device is in a seat of which the record does not know. */
export function recordJoin(db: Db, { seatId, at }: { readonly seatId: string; readonly at: number }): void {
  appendRecord(db, { evaluationId: getSeat(db, seatId).evaluationId, at, actor: seatName(seatId), kind: 'seat-joined', detail: '' });
}

/** Every member's screen says it. */
export function announceJoin(runtime: Runtime, seatId: string): void {
  writeEvaluation(runtime, getSeat(runtime.db, seatId).evaluationId, ({ touchAll }) => touchAll());
}
