import type { PublishedCommitment, RecordHead } from '#lib/contract/commitment';
import { keptStore, type KeptStore } from './keptStore';

/** A head of the record as this device saw it. */
export type SeenHead = RecordHead & { readonly at: number };
type Kept = { readonly seen: SeenHead; readonly broken: boolean };

type Witnessed = {
  readonly evaluationId: string;
  readonly head: RecordHead;
  readonly now: number;
  /** The hash the server's record has at a line now; null when it has no such line. Rejects without an answer. */
  readonly hashAt: (seq: number) => Promise<string | null>;
};

const headKey = (evaluationId: string): string => `head ${evaluationId}`;

/**
 * Holds the server's record to the last head this device saw: when it has moved on, the line seen before must still stand
 * under the same hash. Answers that head when it does not (then it is kept for good), else null.
 */
export async function witnessHead(
  { evaluationId, head, now, hashAt }: Witnessed,
  store: KeptStore = keptStore,
): Promise<SeenHead | null> {
  const seen: SeenHead = { ...head, at: now };
  const kept = await store.update(
    headKey(evaluationId),
    (present) => (present as Kept | undefined) ?? { seen, broken: false },
  );
  if (kept.broken) return kept.seen;
  const standing = head.seq === kept.seen.seq ? head.hash : await hashAt(kept.seen.seq);
  // What was kept while the server was asked, by another page or by the person's word, stays.
  const after = await store.update(headKey(evaluationId), (present) => {
    const held = (present as Kept | undefined) ?? kept;
    if (held.broken || (standing !== kept.seen.hash && !isSame(held.seen, kept.seen))) return held;
    if (standing !== kept.seen.hash) return { seen: kept.seen, broken: true };
    // An answer that was overtaken on its way is older than what was seen: the newer stays.
    return head.seq > held.seen.seq ? { seen, broken: false } : held;
  });
  return after.broken ? after.seen : null;
}

const isSame = (one: RecordHead, other: RecordHead): boolean => one.seq === other.seq && one.hash === other.hash;

/** The person knows why the record differs, and goes on from what it is now. */
export async function acceptHead(
  { evaluationId, head, now }: Pick<Witnessed, 'evaluationId' | 'head' | 'now'>,
  store: KeptStore = keptStore,
): Promise<void> {
  await store.set(headKey(evaluationId), { seen: { ...head, at: now }, broken: false } satisfies Kept);
}

const publishedKey = (roundId: string): string => `published ${roundId}`;

/** Keeps what was published when the round closed, to hold the reveal to it. */
export async function keepPublished(
  roundId: string,
  commitments: readonly PublishedCommitment[],
  store: KeptStore = keptStore,
): Promise<void> {
  await store.set(publishedKey(roundId), commitments);
}

/** What this device saw published before the reveal; null when it saw nothing. */
export async function readPublished(
  roundId: string,
  store: KeptStore = keptStore,
): Promise<readonly PublishedCommitment[] | null> {
  return ((await store.get(publishedKey(roundId))) as readonly PublishedCommitment[] | undefined) ?? null;
}
