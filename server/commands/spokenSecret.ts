import { spokenCode, spokenNameLength } from '#lib/access/spokenCode';
import { hashToken, type Random } from '../random';

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
export function freshSpoken(random: Random, evaluationId: string | null): string {
  const name = evaluationId === null ? Buffer.from(random.token(), 'base64url') : Buffer.from(hashToken(`name ${evaluationId}`), 'hex');
  return spokenCode(name.subarray(0, spokenBytes)).slice(0, spokenNameLength) + spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, spokenBytes));
}

export const freshRecovery = (random: Random) => spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, recoveryBytes));

/** Kept apart from the hashes of links, so that a code is no link and no link a code. */
export const hashSpoken = (code: string) => hashToken(`code ${code}`);
export const hashRecovery = (code: string) => hashToken(`recovery ${code}`);
