import type { Db } from '#db/open';
import { type Device, findDevice, findDeviceRequest, insertDevice, insertDeviceRequest } from '#db/queries/devices';
import { dropSeatLinks, findLink, insertLink, takeLink } from '#db/queries/links';
import { appendRecord } from '#db/queries/record';
import { getSeat } from '#db/queries/seats';
import { inTransaction } from '#db/transaction';
import { spokenCode, spokenNameLength } from '#lib/access/spokenCode';
import { DomainError } from '#lib/errors';
import { tooManyForLesson } from '#lib/evaluation/rounds';
import { hashToken, type Random } from '../random';
import type { Runtime } from '../runtime';
import {
  actorOf,
  type Asker,
  change,
  type EvaluationWrite,
  mustPrepare,
  seatName,
  writeEvaluation,
} from '../write/writeEvaluation';

/**
 * Exchanges a one-time link for a device's secret: the owner's from the terminal, or a seat's. Unknown, used and
 * replaced links are all one answer.
 */
export function joinByLink(
  runtime: Runtime,
  { token, secret }: { readonly token: string /** Of the session to be. */; readonly secret: string },
): string {
  const { db, random, clock } = runtime;
  // Asked again because the answer was lost: this very call has been let in.
  if (findDevice(db, hashToken(secret))) return secret;
  const deviceId = random.id();
  const taken = inTransaction(db, () => {
    const at = clock.now();
    const link = takeLink(db, hashToken(token), at);
    if (!link) throw new DomainError('link-dead');
    const owner = link.kind === 'owner';
    insertDevice(db, {
      id: deviceId,
      tokenHash: hashToken(secret),
      owner,
      seatId: link.seatId,
      createdAt: at,
      cameBy: 'link',
    });
    if (link.seatId !== null) {
      dropSeatLinks(db, link.seatId);
      recordJoin(db, { seatId: link.seatId, at });
    }
    if (owner)
      appendRecord(db, {
        evaluationId: null,
        at,
        actor: 'owner',
        kind: 'owner-signed-in',
        detail: 'by the link from the terminal',
      });
    return link;
  });
  if (taken.seatId !== null) announceJoin(runtime, taken.seatId);
  return secret;
}

/** The record says it within the transaction that lets the device in: no device is in a seat of which the record does not know. */
function recordJoin(db: Db, { seatId, at }: { readonly seatId: string; readonly at: number }): void {
  appendRecord(db, {
    evaluationId: getSeat(db, seatId).evaluationId,
    at,
    actor: seatName(seatId),
    kind: 'seat-joined',
    detail: '',
  });
}

/** Every member's screen says it. */
function announceJoin(runtime: Runtime, seatId: string): void {
  writeEvaluation(runtime, getSeat(runtime.db, seatId).evaluationId, ({ touchAll }) => touchAll());
}

/** `waiting`: the secret is worth nothing until the seat's first device has let this one in. */
type Joined = { readonly secret: string; readonly waiting: boolean };

/**
 * Exchanges a spoken code: for a seat's session, or for a request that its first device is asked to approve (BL9). Unknown,
 * used and late codes are all one answer.
 */
export function joinByCode(
  runtime: Runtime,
  { code, secret }: { readonly code: string /** Of the session to be. */; readonly secret: string },
): Joined {
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
      insertDeviceRequest(db, {
        id,
        tokenHash,
        seatId: taken.seatId,
        digits: digitsOf(random.id()),
        askedAt: at,
        expiresAt: at + codeLife,
      });
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

/** Ten minutes, once. */
export const codeLife = 600_000;

type SpokenCode = {
  readonly code: string;
  readonly expiresAt: number;
  /** True when the seat is held: whoever types the code must still be let in by the seat's own device. */
  readonly further: boolean;
};

/**
 * A code to be spoken instead of a link. For a seat that nobody has held, or that was issued again and awaits its device, it
 * lets a device in; for a seat that is held it only lets one ask (BL9). A seat whose devices have gone is issued again first.
 */
export function makeSpokenCode(
  ctx: Asker,
  { evaluationId, seatId }: { readonly evaluationId: string; readonly seatId: string },
): SpokenCode {
  return change({ ctx, id: evaluationId }, (write) => {
    mustPrepare(write);
    const seat = write.facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (write.facts.phase === 'sealed') throw new DomainError('wrong-phase');
    const waiting = seat.issued === 0 || seat.linkWaiting;
    if (seat.owner || seat.paper || (!waiting && !seat.joined)) throw new DomainError('in-use');
    if (waiting && seat.kind !== 'none' && tooManyForLesson(write.facts.plan.kind, write.facts.seats))
      throw new DomainError('lesson-seats');
    write.note(actorOf(write.viewer), 'code-made', seatName(seat.id));
    return insertCode(ctx.runtime, write, { evaluationId, seatId, further: !waiting });
  });
}

function insertCode(
  { db, random }: { readonly db: Runtime['db']; readonly random: Random },
  { at }: Pick<EvaluationWrite, 'at'>,
  of: { readonly evaluationId: string | null; readonly seatId: string | null; readonly further: boolean },
): SpokenCode {
  const code = freshSpoken(random, of.evaluationId);
  const expiresAt = at + codeLife;
  insertLink(db, {
    tokenHash: hashSpoken(code),
    kind: of.further ? 'further' : 'code',
    seatId: of.seatId,
    createdAt: at,
    expiresAt,
  });
  return { code, expiresAt, further: of.further };
}

/** For a further device of the asker's own seat, or of the owner (null); no record, since nobody is in yet. */
export function makeFurtherCode(runtime: Runtime, seatId: string | null): SpokenCode {
  return insertCode(
    runtime,
    { at: runtime.clock.now() },
    { evaluationId: seatId === null ? null : getSeat(runtime.db, seatId).evaluationId, seatId, further: true },
  );
}

/**
 * A code to be spoken is read by people only when it is short: two signs that name its evaluation, then 40 random bits in
 * eight. It lives for ten minutes, and an address may try 5 times at a name and 5 times a minute after that (`standardRates`):
 * 55 tries at it in its life. Who commanded every /64 of a /48 (65,536 addresses) and knew a panel of 12 with two codes
 * to each seat would hit one of 24 with 65,536 × 55 × 24 / 2^40 = 1 in 12,700. No count of everybody's tries is needed for
 * that, so a stranger can shut no door.
 */
const spokenBytes = 5;
/** To be written down and kept: 120 bits, 24 signs. */
const recoveryBytes = 15;

export const recoveryLength = 24;

/** `evaluationId` null for a code of the owner's own, whose name is drawn each time. */
function freshSpoken(random: Random, evaluationId: string | null): string {
  const name =
    evaluationId === null
      ? Buffer.from(random.token(), 'base64url')
      : Buffer.from(hashToken(`name ${evaluationId}`), 'hex');
  return (
    spokenCode(name.subarray(0, spokenBytes)).slice(0, spokenNameLength) +
    spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, spokenBytes))
  );
}

export const freshRecovery = (random: Random) =>
  spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, recoveryBytes));

/** Kept apart from the hashes of links, so that a code is no link and no link a code. */
export const hashSpoken = (code: string) => hashToken(`code ${code}`);
export const hashRecovery = (code: string) => hashToken(`recovery ${code}`);

/**
 * One browser holds one place. When the owner opens another seat's link or code in hers, the attempt stands in the record of
 * that evaluation, where the seat itself can read it; the link is not used up.
 */
export function refuseSecondPlace({ db, clock }: Runtime, device: Device, tokenHash: string): never {
  if (device.owner) {
    const seatId = findLink(db, tokenHash)?.seatId ?? null;
    const seat = seatId === null ? null : getSeat(db, seatId);
    const detail = seat ? `in the owner’s browser: ${seatName(seat.id)}` : 'in the owner’s browser';
    appendRecord(db, {
      evaluationId: seat?.evaluationId ?? null,
      at: clock.now(),
      actor: 'owner',
      kind: 'link-refused',
      detail,
    });
  }
  throw new DomainError('in-use');
}
