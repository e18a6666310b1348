'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import type { ReactNode } from 'react';
import { useTRPC } from '../_data/trpc';
import { useLive, type Link as LiveLink } from '../_data/useLive';
import { useKeepShell } from '../offline/useShell';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PickOrderAgreed } from '../_parts/PickOrderAgreed';
import { Refusal } from '../_parts/Refusal';
import { Witness } from '../_evaluation/Witness';
import { BeforeStart } from './BeforeStart';
import cardStyles from './score.module.css';
import { NoLink } from './NoLink';
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
  if (evaluation.data) {
    return (
      <>
        <Witness evaluation={evaluation.data} />
        <InPhase evaluation={evaluation.data} link={link} readAt={evaluation.dataUpdatedAt} />
      </>
    );
  }
  return (
    <Page width="text">
      {evaluation.error ? (
        <>
          <h1>Scoring</h1>
          <Refusal error={evaluation.error} />
        </>
      ) : (
        <>
          <Loading what="the evaluation" />
          {link.lostAt !== null ? <p>There is no link to the server just now. It is tried again by itself.</p> : null}
        </>
      )}
    </Page>
  );
}

type InPhaseProps = { readonly evaluation: EvaluationView; readonly link: LiveLink; readonly readAt: number };

function InPhase({ evaluation, link, readAt }: InPhaseProps) {
  const { round, viewer } = evaluation;
  const seat = evaluation.seats.find((one) => one.id === viewer.seatId);
  const noLink = <NoLink link={link} readAt={readAt} />;
  if (!round) return <NotOpenYet evaluation={evaluation}>{noLink}</NotOpenYet>;
  if (!seat || seat.kind === 'none') {
    return (
      <WaitScreen evaluation={evaluation} round={round}>
        {noLink}
      </WaitScreen>
    );
  }
  return <SeatScreen key={`${evaluation.id} ${seat.id} ${round.id}`} evaluation={evaluation} round={round} seat={seat} link={link} readAt={readAt} />;
}

function NotOpenYet({ evaluation, children }: { readonly evaluation: EvaluationView; readonly children: ReactNode }) {
  return (
    <main className={cardStyles.page}>
      <header className={cardStyles.head}>
        <h1>{evaluation.litterName}</h1>
        <p className="small">{evaluation.name}</p>
      </header>
      <p>
        Scoring has not been opened yet. This page moves on by itself when it is.
        {evaluation.viewer.owner ? (
          <>
            {' '}
            <Link href={`/setup?id=${evaluation.id}`}>To the set-up</Link>
          </>
        ) : null}
      </p>
      {children}
      <PickOrderAgreed evaluation={evaluation} />
      <BeforeStart evaluation={evaluation} />
    </main>
  );
}
