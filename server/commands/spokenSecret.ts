import { spokenCode } from '#lib/access/spokenCode';
import { hashToken, type Random } from '../random';

/** A code to be spoken is read by people only when it is short: 40 bits, 8 signs. */
const spokenBytes = 5;
/** To be written down and kept: 120 bits, 24 signs. */
const recoveryBytes = 15;

export const spokenLength = 8;
export const recoveryLength = 24;

export const freshSpoken = (random: Random) => spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, spokenBytes));
export const freshRecovery = (random: Random) => spokenCode(Buffer.from(random.token(), 'base64url').subarray(0, recoveryBytes));

/** Kept apart from the hashes of links, so that a code is no link and no link a code. */
export const hashSpoken = (code: string) => hashToken(`code ${code}`);
export const hashRecovery = (code: string) => hashToken(`recovery ${code}`);
