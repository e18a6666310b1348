import { type Device, hasSession } from '#db/queries/devices';
import { getEvaluationFacts, getTable } from '#db/queries/evaluations';
import { appendRecord } from '#db/queries/record';
import { bumpVersion } from '#db/queries/versions';
import { inTransaction } from '#db/transaction';
import type { ViewerFace } from '#lib/contract/evaluationView';
import { DomainError, type DomainErrorCode } from '#lib/errors';
import type { EvaluationFacts, SeatFacts, Viewer } from '#lib/evaluation/facts';
import { seatOf, viewerOf } from '#lib/evaluation/seats';
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
 * Every change of an evaluation comes through here: rule and writes in one transaction, versions raised by one per audience,
 * and only after the commit (SC4) the doorbells. A throw leaves nothing behind. What a device asks for comes through `change`.
 * An evaluation that came in a file is only read: throws imported.
 */
export function writeEvaluation<T>(runtime: Runtime, evaluationId: string, work: (write: EvaluationWrite) => T): T {
  const { db } = runtime;
  const done = inTransaction(db, () => {
    const touched = new Set<string | null>();
    const at = runtime.clock.now();
    const facts = getEvaluationFacts(db, evaluationId);
    if (facts.imported !== null) throw new DomainError('imported');
    const value = work({
      facts,
      at,
      touchAll: () => touched.add(null),
      touchSeat: (seatId) => touched.add(seatId),
      note: (actor, kind, detail = '') => appendRecord(db, { evaluationId, at, actor, kind, detail }),
    });
    return { value, announcements: touched.size === 0 ? [] : announcements(runtime, facts, touched) };
  });
  for (const announcement of done.announcements) runtime.hub.announce(announcement);
  return done.value;
}

/** What the bell tells besides its audience is as it stands after the change; of the facts as read only whose seat is the owner's, which nothing changes. */
function announcements(
  { db }: Runtime,
  { id, seats }: EvaluationFacts,
  touched: ReadonlySet<string | null>,
): Announcement[] {
  const { phase, table } = getTable(db, id);
  return [...touched].map((seatId) => ({
    seat: seatId === null ? null : { id: seatId, owner: seats.some((seat) => seat.id === seatId && seat.owner) },
    event: {
      evaluation: id,
      audience: seatId === null ? 'all' : 'own',
      phase,
      version: bumpVersion(db, id, seatId === null ? 'all' : `seat:${seatId}`),
      table,
    },
  }));
}

/** Whoever asks, as far as rights go: a device with a session. A hand of the demo's script has no session, and no id. */
export type Asker = { readonly runtime: Runtime; readonly device: Pick<Device, 'id' | 'owner' | 'seatId'> };

/** Who asks is here, by the rights that its seat has now; `seat` null where it holds none. */
export type Acting = { readonly viewer: ViewerFace; readonly seat: SeatFacts | null };

/**
 * Who a device is in one evaluation. The owner holds her own seat by her session; a seat's device knows its own evaluation
 * only: any other is not-found, as if it were not there.
 */
export function whoAsks(facts: EvaluationFacts, device: Asker['device']): Acting {
  const seat = seatOf(facts, device);
  if (!seat && !device.owner) throw new DomainError('not-found');
  return { viewer: viewerOf(device.owner, seat), seat };
}

/** The asker's own seat in an evaluation; not-allowed when it has none. */
export function ownSeat({ seat }: Acting): SeatFacts {
  if (!seat) throw new DomainError('not-allowed');
  return seat;
}

/** For whoever prepares: the owner, or an organiser. Throws not-allowed. */
export function mustPrepare({ viewer }: Acting): void {
  if (!viewer.owner && !viewer.organises) throw new DomainError('not-allowed');
}

/** For whoever reads what is revealed; whether anything is, is found out elsewhere. Throws not-allowed. */
export function mustRead({ viewer }: Acting): void {
  if (!viewer.reads) throw new DomainError('not-allowed');
}

/**
 * A change that a device asks for. Who that is here and what it may is decided on the facts that the rule is decided on,
 * inside the transaction: a right taken away a moment ago is gone, a session that has ended meanwhile writes nothing (not-signed-in),
 * and nothing is read twice.
 */
export function change<T>(
  { ctx: { runtime, device }, id }: { readonly ctx: Asker; readonly id: string },
  work: (write: EvaluationWrite & Acting) => T,
): T {
  return writeEvaluation(runtime, id, (write) => {
    if (device.id !== '' && !hasSession(runtime.db, device.id)) throw new DomainError('not-signed-in');
    return work({ ...write, ...whoAsks(write.facts, device) });
  });
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
