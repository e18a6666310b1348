import { type Device, findDevice, insertDevice } from '#db/queries/devices';
import { insertLink } from '#db/queries/links';
import { getPassphrase, savePassphrase, takeRecoveryCode } from '#db/queries/ownerSecrets';
import { appendRecord } from '#db/queries/record';
import { inTransaction } from '#db/transaction';
import { readCode } from '#lib/access/spokenCode';
import { DomainError } from '#lib/errors';
import type { Limits } from '../limits';
import { keepPassphrase, matchesPassphrase } from '../passphrase';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { freshRecovery, hashRecovery, recoveryLength } from './joining';

const recoveryCodes = 8;
/** Whoever has just come by the terminal or by a recovery code need not know the passphrase that is to be replaced. */
const freshFor = 600_000;

/** Who tries, for the limits. */
type Trier = { readonly limits: Limits; readonly address: string };

type NewSecret = { readonly device: Device; readonly current: string; readonly passphrase: string };

/** Sets the owner's passphrase; answers fresh recovery codes, which are shown this once. Throws wrong-secret. */
export async function setPassphrase(
  runtime: Runtime,
  trier: Trier,
  { device, current, passphrase }: NewSecret,
): Promise<string[]> {
  const { db, random, clock } = runtime;
  const kept = getPassphrase(db);
  const justProved =
    device.cameBy !== 'passphrase' && device.cameBy !== 'approval' && clock.now() - device.createdAt < freshFor;
  // Sent again because the answer was lost: then the new one is the one that is kept.
  if (kept && !justProved) await guessPassphrase(runtime, trier, [current, passphrase]);
  const fresh = await trier.limits.inTurn(() => keepPassphrase(passphrase, random.id()));
  const codes = Array.from({ length: recoveryCodes }, () => freshRecovery(random));
  inTransaction(db, () => {
    const at = clock.now();
    savePassphrase(db, { kept: fresh, codeHashes: codes.map(hashRecovery), at });
    appendRecord(db, { evaluationId: null, at, actor: 'owner', kind: 'passphrase-set', detail: '' });
  });
  return codes;
}

/** The owner on another device, by passphrase or by a recovery code; answers her session's secret. Throws wrong-secret. */
export async function signIn(
  runtime: Runtime,
  trier: Trier,
  { typed, secret }: { readonly typed: string /** Of the session to be. */; readonly secret: string },
): Promise<string> {
  // Asked again because the answer was lost: this very call has been let in.
  if (findDevice(runtime.db, hashToken(secret))) return secret;
  const code = readCode(typed, recoveryLength);
  // A recovery code is too long to be guessed: it works while passphrases have to wait.
  if (code !== null && takeRecoveryCode(runtime.db, hashRecovery(code), runtime.clock.now()))
    return begin(runtime, 'recovery', secret);
  await guessPassphrase(runtime, trier, [typed]);
  return begin(runtime, 'passphrase', secret);
}

/** Where none is set, any is wrong. */
async function guessPassphrase(
  { db, clock }: Runtime,
  { limits, address }: Trier,
  typed: readonly string[],
): Promise<void> {
  await limits.guess({ door: 'passphrase', name: '', address, now: clock.now() }, async () => {
    const kept = getPassphrase(db)?.kept;
    for (const one of kept === undefined ? [] : typed)
      if (await limits.inTurn(() => matchesPassphrase(one, kept ?? ''))) return;
    throw new DomainError('wrong-secret');
  });
}

function begin({ db, random, clock }: Runtime, cameBy: 'passphrase' | 'recovery', secret: string): string {
  inTransaction(db, () => {
    const at = clock.now();
    insertDevice(db, {
      id: random.id(),
      tokenHash: hashToken(secret),
      owner: true,
      seatId: null,
      createdAt: at,
      cameBy,
    });
    appendRecord(db, {
      evaluationId: null,
      at,
      actor: 'owner',
      kind: 'owner-signed-in',
      detail: cameBy === 'recovery' ? 'by a recovery code' : 'by passphrase',
    });
  });
  return secret;
}

/** A fresh one-time owner link; an earlier unused one dies. Only whoever is at the server's terminal sees it. */
export function makeOwnerLink({ db, random, clock }: Pick<Runtime, 'db' | 'random' | 'clock'>): string {
  const token = random.token();
  inTransaction(db, () =>
    insertLink(db, { tokenHash: hashToken(token), kind: 'owner', seatId: null, createdAt: clock.now() }),
  );
  return token;
}
