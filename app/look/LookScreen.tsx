'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import type { LookView } from '#lib/contract/lookView';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { type Faces, facesOf } from '../_evaluation/facesOf';
import { isRescoring } from '../_evaluation/isRescoring';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { SecondRoundNotice } from '../_result/SecondRoundNotice';
import { LookAnswers, lookOutcomeWords } from '../_result/LookAnswers';
import { LookOpeningForm } from './LookOpeningForm';
import { OpenBatch } from './OpenBatch';
import styles from './look.module.css';

/** Second looks: two puppies set up side by side, every seat answers for itself at once. */
export function LookScreen() {
  return (
    <EvaluationFrame here="look" beforeReveal={<TooEarly />}>
      <Looks />
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

function Looks() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data: looks, error } = useQuery(trpc.look.list.queryOptions({ id: evaluation.id }));
  if (!looks) return error === null ? <Loading what="the second looks" /> : <Refusal error={error} />;
  const faces = facesOf(evaluation);
  const open = looks.filter((look) => look.state !== 'revealed');
  return (
    <div className={`stack gap-36 ${styles.looks}`}>
      <SecondRoundNotice />
      {open.length > 0 ? (
        <OpenBatch key={open[0]?.batchId} looks={open} faces={faces} />
      ) : (
        <LookOpening looks={looks} faces={faces} />
      )}
      <EarlierLooks looks={looks.filter((look) => look.state === 'revealed')} faces={faces} />
    </div>
  );
}

type OpeningProps = { readonly looks: readonly LookView[]; readonly faces: Faces };

/** No look is open: what it would be for, and for whoever leads the way to open one. */
function LookOpening({ looks, faces }: OpeningProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data: board } = useQuery(trpc.board.get.queryOptions({ id: evaluation.id }));
  if (evaluation.phase === 'sealed')
    return (
      <EmptyState title="The record is sealed">
        <p>No further second look can be opened.</p>
      </EmptyState>
    );
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
  if (board.slots.length === 0)
    return (
      <EmptyState title="No place, no second look">
        <p>A second look is about one place in the pick order, and none was set up.</p>
      </EmptyState>
    );
  return <LookOpeningForm board={board} looks={looks} faces={faces} />;
}

type EarlierProps = { readonly looks: readonly LookView[]; readonly faces: Faces };

/** Closed looks, newest first, with the answers by seat and the way to what they moved. */
function EarlierLooks({ looks, faces }: EarlierProps) {
  const evaluation = useEvaluation();
  if (looks.length === 0) return null;
  return (
    <section aria-labelledby="closed-looks" className="stack gap-14">
      <h2 id="closed-looks">Closed second looks</h2>
      <p>
        Their answers are part of the board’s numbers now.{' '}
        <Link href={`/board?id=${evaluation.id}`}>See how the board stands</Link>
      </p>
      {looks.toReversed().map((look) => (
        <article key={look.id} className="slip stack gap-8">
          <h3>
            Place {faces.place(look.slotId)}, batch {batchOf(looks, look)}
            {look.medium === 'photographs' ? ', from photographs' : ''}: {faces.puppyName(look.firstPuppyId)} and{' '}
            {faces.puppyName(look.secondPuppyId)}
          </h3>
          <p>{lookOutcomeWords(look, faces)}</p>
          <LookAnswers look={look} faces={faces} />
        </article>
      ))}
    </section>
  );
}

/** Which of its place's batches a look belongs to, from 1. */
function batchOf(looks: readonly LookView[], { slotId, batchId }: LookView): number {
  return [...new Set(looks.filter((look) => look.slotId === slotId).map((look) => look.batchId))].indexOf(batchId) + 1;
}
