'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import { useTRPC } from '../_data/trpc';
import { EmptyState } from '../_parts/EmptyState';
import { isRescoring } from '../_parts/isRescoring';
import { Loading } from '../_parts/Loading';
import { LookOpeningForm } from './LookOpeningForm';

type OpeningProps = { readonly looks: readonly LookView[]; readonly evaluation: EvaluationView; readonly faces: Faces };

/** No look is open: what it would be for, and for whoever leads the way to open one. */
export function LookOpening({ looks, evaluation, faces }: OpeningProps) {
  const trpc = useTRPC();
  const { data: board } = useQuery(trpc.board.get.queryOptions({ id: evaluation.id }));
  if (evaluation.phase === 'sealed') return <EmptyState title="The record is sealed"><p>No further second look can be opened.</p></EmptyState>;
  if (isRescoring(evaluation)) return null;
  if (!evaluation.viewer.leads) {
    return (
      <EmptyState title="No second look is open">
        <p>When the owner or the table’s leader opens one, it appears here by itself.</p>
        <Link href={`/board?id=${evaluation.id}`}>To the board</Link>
      </EmptyState>
    );
  }
  if (!board) return <Loading what="the close calls" />;
  if (board.slots.length === 0) return <EmptyState title="No place, no second look"><p>A second look is about one place in the pick order, and none was set up.</p></EmptyState>;
  return <LookOpeningForm board={board} looks={looks} evaluation={evaluation} faces={faces} />;
}
