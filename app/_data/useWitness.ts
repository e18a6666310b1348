'use client';

import { useEffect, useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPCClient } from './trpc';
import { acceptHead, keepPublished, witnessHead, type SeenHead } from './witness';

/** This device as a witness of one evaluation: the head it saw when the record no longer holds it, else null. */
export function useWitness({ id, head: { seq, hash }, round, commitments }: EvaluationView): {
  readonly broken: SeenHead | null;
  readonly accept: () => void;
} {
  const client = useTRPCClient();
  const [broken, setBroken] = useState<SeenHead | null>(null);
  useEffect(() => {
    let current = true;
    const hashAt = async (at: number) => (await client.record.hashAt.query({ id, seq: at })).hash;
    witnessHead({ evaluationId: id, head: { seq, hash }, now: Date.now(), hashAt })
      .then((seen) => current && setBroken(seen))
      // Without a link, or where the browser keeps nothing, nothing can be said.
      .catch(() => undefined);
    return () => {
      current = false;
    };
  }, [client, id, seq, hash]);
  const closed = round?.state === 'closed' ? round.id : null;
  useEffect(() => {
    if (closed !== null && commitments) keepPublished(closed, commitments).catch(() => undefined);
  }, [closed, commitments]);
  const accept = () => {
    acceptHead({ evaluationId: id, head: { seq, hash }, now: Date.now() })
      .then(() => setBroken(null))
      .catch(() => undefined);
  };
  return { broken, accept };
}
