'use client';

import Link from 'next/link';
import type { ReactNode } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useEvaluation, useEvaluationHere } from '../_evaluation/evaluationContext';
import { isRescoring } from '../_evaluation/isRescoring';
import { clockWords } from '../_parts/timeWords';
import styles from './score.module.css';
import { RoundPanel } from './RoundPanel';
import { SeatStates } from './SeatStates';
import { TableControl } from './TableControl';
import type { RoundView } from './useScoring';

/** Said where a screen follows by itself, while it cannot: since when, and from when it is what it shows. */
export function NoLink() {
  const { link, readAt } = useEvaluationHere();
  if (link.connected || link.lostAt === null) return null;
  return (
    <p role="note">
      <strong>No link since {clockWords(link.lostAt)}.</strong> What you see here was read at {clockWords(readAt)}; it
      is brought up to date by itself when the link is back.
    </p>
  );
}

type Props = { readonly round: RoundView; readonly children?: ReactNode };

/** For who does not score just now: locked, closed, revealed, or a seat that does not score. */
export function WaitScreen({ round, children }: Props) {
  const evaluation = useEvaluation();
  const leads = evaluation.viewer.leads && round.state === 'open' && round.medium === 'table';
  return (
    <main className={`stack gap-28 ${styles.page}`}>
      <header className="stack starts gap-4">
        <h1>{titleOf(evaluation, round)}</h1>
        <p className="small">
          {evaluation.litterName}, {evaluation.name}
        </p>
      </header>
      {round.state === 'revealed' ? (
        <p>
          All is open now.{' '}
          {evaluation.plan.kind === 'lesson' ? (
            <Link href={`/lesson?id=${evaluation.id}`}>To the lesson</Link>
          ) : (
            <Link href={`/board?id=${evaluation.id}`}>To the board</Link>
          )}
        </p>
      ) : (
        <p>{waitWords(evaluation, round)}</p>
      )}
      {isRescoring(evaluation) ? (
        <p>
          This is the second round. The first result stays on <Link href={`/board?id=${evaluation.id}`}>the board</Link>
          .
        </p>
      ) : null}
      {children}
      {leads ? (
        <section className="stack gap-12" aria-label="The table">
          <h2>The table</h2>
          <TableControl round={round} />
        </section>
      ) : null}
      {round.state !== 'revealed' && evaluation.viewer.owner ? <RoundPanel round={round} /> : null}
      {round.state !== 'revealed' && !evaluation.viewer.owner ? (
        <section className="stack gap-12" aria-label="Round">
          <h2>Who has locked</h2>
          <SeatStates round={round} />
        </section>
      ) : null}
    </main>
  );
}

function own(evaluation: EvaluationView) {
  return evaluation.seats.find((seat) => seat.id === evaluation.viewer.seatId);
}

function titleOf(evaluation: EvaluationView, round: RoundView): string {
  if (round.state === 'revealed') return 'Revealed';
  if (own(evaluation)?.state === 'locked') return 'Your card is locked';
  if (round.occasion === 'second') return `The second round is ${round.state}`;
  return round.state === 'closed' ? 'Scoring is closed' : 'The round is open';
}

function waitWords(evaluation: EvaluationView, round: RoundView): string {
  const seat = own(evaluation);
  if (round.state === 'closed') {
    return seat && seat.kind !== 'none' && seat.state !== 'locked'
      ? 'The owner has closed the round. Your card counts as it stands, marked not locked. The reveal comes next; this page follows by itself.'
      : evaluation.viewer.owner
        ? 'Nothing that comes now counts. Reveal below when you are ready.'
        : 'Nothing that comes now counts. The owner reveals next; this page follows by itself.';
  }
  if (seat?.state === 'locked') return 'Thank you. Waiting for the others; this page follows by itself.';
  return 'Your seat does not score. This page shows who has locked, and follows by itself.';
}
