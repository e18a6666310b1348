import { getEvaluationFacts } from '#db/queries/evaluations';
import { appendRecord } from '#db/queries/record';
import { bumpVersion } from '#db/queries/versions';
import { inTransaction } from '#db/transaction';
import { DomainError, type DomainErrorCode } from '#lib/errors';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import type { RecordKind } from '#lib/proof/recordKinds';
import type { Announcement } from '../live/hub';
import type { Runtime } from '../runtime';

export type EvaluationWrite = {
  /** Read inside the transaction: a rule decided on them cannot be overtaken. */
  readonly facts: EvaluationFacts;
  readonly at: number;
  /** Members of this audience shall refetch: `all`, or one seat's own devices. */
  readonly touchAll: () => void;
  readonly touchSeat: (seatId: string) => void;
  /** A line in the record of what happened: never a score, never a secret. What it binds is put behind its words by lib/proof/recordKinds. */
  readonly note: (actor: string, kind: RecordKind, detail?: string) => void;
};

/**
 * The one way to change an evaluation: rule and writes in one transaction, versions raised by one per audience, and
 * only after the commit (SC4) the doorbells. A throw leaves nothing behind.
 */
export function writeEvaluation<T>(runtime: Runtime, evaluationId: string, work: (write: EvaluationWrite) => T): T {
  const { db } = runtime;
  const done = inTransaction(db, () => {
    const touched = new Set<string | null>();
    const at = runtime.clock.now();
    const facts = getEvaluationFacts(db, evaluationId);
    const value = work({
      facts,
      at,
      touchAll: () => touched.add(null),
      touchSeat: (seatId) => touched.add(seatId),
      note: (actor, kind, detail = '') => appendRecord(db, { evaluationId, at, actor, kind, detail }),
    });
    // What concerns one seat's own devices moves no phase and no table: the facts as read still hold, and scores are many.
    const after = touched.has(null) ? getEvaluationFacts(db, evaluationId) : facts;
    return { value, announcements: announcements(runtime, after, touched) };
  });
  for (const announcement of done.announcements) runtime.hub.announce(announcement);
  return done.value;
}

function announcements({ db }: Runtime, facts: EvaluationFacts, touched: ReadonlySet<string | null>): Announcement[] {
  const table = facts.round?.state === 'open' ? facts.round.tableShowingId : null;
  return [...touched].map((seatId) => ({
    seat: seatId === null ? null : { id: seatId, owner: facts.seats.some((seat) => seat.id === seatId && seat.owner) },
    event: {
      evaluation: facts.id,
      audience: seatId === null ? 'all' : 'own',
      phase: facts.phase,
      version: bumpVersion(db, facts.id, seatId === null ? 'all' : `seat:${seatId}`),
      table,
    },
  }));
}

/** Turns a rule's verdict into a refusal; null means the rule agreed. */
export function refuse(verdict: DomainErrorCode | null): void {
  if (verdict) throw new DomainError(verdict);
}

/** How the record names who acted: the owner, or the seat. */
export function actorOf({ owner, seatId }: Viewer): string {
  return owner || seatId === null ? 'owner' : seatName(seatId);
}

/** How the record names a seat: by its id, so that no person's name is in what can never change. db/queries/record puts the label. */
export function seatName(id: string): string {
  return `seat:${id}`;
}
