'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { useTRPC } from '../_data/trpc';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { PracticeCard } from './PracticeCard';
import { PracticeCompared } from './PracticeCompared';

/** Two drawn puppies before the day: the same eye for the same words. Each seat sees the others' answers at its own lock. */
export function PracticeScreen() {
  return <EvaluationFrame here="practice">{(evaluation) => <Practice evaluation={evaluation} />}</EvaluationFrame>;
}

function Practice({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const { data: practice, error } = useQuery(trpc.practice.get.queryOptions({ id: evaluation.id }));
  if (!practice) return error === null ? <Loading what="the practice" /> : <Refusal error={error} />;
  if (practice.own) return <PracticeCompared evaluation={evaluation} practice={practice} />;
  if (practice.open && practice.criteria.length > 0) return <PracticeCard evaluation={evaluation} criteria={practice.criteria} />;
  return (
    <EmptyState title="No practice here">
      <p>{practice.open ? 'The sheet has nothing that a side picture shows.' : 'Practice is for seats that score, before the scoring begins. This seat took no part, or did so on a device it was issued to before.'}</p>
    </EmptyState>
  );
}
