'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { useTRPC } from '../_data/trpc';
import { useLive, type Link as LiveLink } from '../_data/useLive';
import { useKeepShell } from '../offline/useShell';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { Refusal } from '../_parts/Refusal';
import { BeforeStart } from './BeforeStart';
import cardStyles from './CardScreen.module.css';
import { SeatScreen } from './SeatScreen';
import { WaitScreen } from './WaitScreen';

/** The scoring page of one evaluation, `/score?id=…`. */
export function ScoreRoute() {
  const id = useSearchParams().get('id');
  if (id === null || id === '') {
    return (
      <Page width="text">
        <h1>Scoring</h1>
        <EmptyState title="No evaluation named">
          <p>Open the link you were sent, or choose an evaluation on the first page.</p>
          <Link href="/">To the first page</Link>
        </EmptyState>
      </Page>
    );
  }
  return <Evaluation id={id} />;
}

function Evaluation({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  const link = useLive(id);
  useKeepShell();
  const evaluation = useQuery(trpc.evaluation.get.queryOptions({ id }));
  if (evaluation.data) return <InPhase evaluation={evaluation.data} link={link} />;
  return (
    <Page width="text">
      {evaluation.error ? (
        <>
          <h1>Scoring</h1>
          <Refusal error={evaluation.error} />
        </>
      ) : (
        <Loading what="the evaluation" />
      )}
    </Page>
  );
}

function InPhase({ evaluation, link }: { readonly evaluation: EvaluationView; readonly link: LiveLink }) {
  const { round, viewer } = evaluation;
  const seat = evaluation.seats.find((one) => one.id === viewer.seatId);
  if (!round) return <NotOpenYet evaluation={evaluation} />;
  if (!seat || seat.kind === 'none') return <WaitScreen evaluation={evaluation} round={round} />;
  return <SeatScreen key={`${evaluation.id} ${seat.id}`} evaluation={evaluation} round={round} seat={seat} link={link} />;
}

function NotOpenYet({ evaluation }: { readonly evaluation: EvaluationView }) {
  return (
    <main className={cardStyles.page}>
      <header className={cardStyles.head}>
        <h1>{evaluation.litterName}</h1>
        <p className="small">{evaluation.name}</p>
      </header>
      <p>
        Scoring has not been opened yet. This page moves on by itself when it is.
        {evaluation.viewer.owner && (
          <>
            {' '}
            <Link href={`/setup?id=${evaluation.id}`}>To the set-up</Link>
          </>
        )}
      </p>
      <BeforeStart evaluation={evaluation} />
    </main>
  );
}
