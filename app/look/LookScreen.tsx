'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { facesOf } from '../board/facesOf';
import { SecondRoundNotice } from '../board/SecondRoundNotice';
import { useTRPC } from '../_data/trpc';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { EarlierLooks } from './EarlierLooks';
import styles from './LookScreen.module.css';
import { LookOpening } from './LookOpening';
import { OpenBatch } from './OpenBatch';

/** Second looks: two puppies set up side by side, every seat answers for itself at once. */
export function LookScreen() {
  return (
    <EvaluationFrame here="look">
      {(evaluation) => (evaluation.revealed ? <Looks evaluation={evaluation} /> : <TooEarly />)}
    </EvaluationFrame>
  );
}

function TooEarly() {
  return (
    <EmptyState title="Second looks come after the reveal">
      <p>They are for puppies that the revealed scores do not tell apart.</p>
    </EmptyState>
  );
}

function Looks({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const { data: looks, error } = useQuery(trpc.look.list.queryOptions({ id: evaluation.id }));
  if (!looks) return error === null ? <Loading what="the second looks" /> : <Refusal error={error} />;
  const faces = facesOf(evaluation);
  const open = looks.filter((look) => look.state !== 'revealed');
  const props = { evaluation, faces };
  return (
    <div className={styles.looks}>
      <SecondRoundNotice evaluation={evaluation} />
      {open.length > 0 ? <OpenBatch key={open[0]?.batchId} looks={open} {...props} /> : <LookOpening looks={looks} {...props} />}
      <EarlierLooks looks={looks.filter((look) => look.state === 'revealed')} {...props} />
    </div>
  );
}
