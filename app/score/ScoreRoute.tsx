'use client';

import Link from 'next/link';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation, useEvaluationHere } from '../_evaluation/evaluationContext';
import { PickOrderAgreed } from '../_parts/PickOrderAgreed';
import { useKeepShell } from '../offline/useShell';
import { BeforeStart } from './BeforeStart';
import { SeatScreen } from './SeatScreen';
import { NoLink, WaitScreen } from './WaitScreen';
import styles from './score.module.css';

/** The scoring page of one evaluation, `/score?id=…`. */
export function ScoreRoute() {
  useKeepShell();
  return (
    <EvaluationFrame here="score" layout="bare">
      <InPhase />
    </EvaluationFrame>
  );
}

function InPhase() {
  const { id, round, seats, viewer } = useEvaluation();
  const seat = seats.find((one) => one.id === viewer.seatId);
  if (!round) return <NotOpenYet />;
  if (!seat || seat.kind === 'none') {
    return (
      <WaitScreen round={round}>
        <NoLink />
      </WaitScreen>
    );
  }
  return <SeatScreen key={`${id} ${seat.id} ${round.id}`} round={round} seat={seat} />;
}

function NotOpenYet() {
  const evaluation = useEvaluation();
  return (
    <main className={styles.page}>
      <header className={styles.head}>
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
      <NoLink />
      <PickOrderAgreed />
      <BeforeStart />
    </main>
  );
}
