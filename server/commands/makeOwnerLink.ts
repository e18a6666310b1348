import { inTransaction } from '#db/inTransaction';
import { insertLink } from '#db/queries/insertLink';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';

/** A fresh one-time owner link; an earlier unused one dies. Only whoever is at the server's terminal sees it. */
export function makeOwnerLink({ db, random, clock }: Pick<Runtime, 'db' | 'random' | 'clock'>): string {
  const token = random.token();
  inTransaction(db, () => insertLink(db, { tokenHash: hashToken(token), kind: 'owner', seatId: null, createdAt: clock.now() }));
  return token;
}
