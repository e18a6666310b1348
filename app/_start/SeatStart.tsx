'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { useLive } from '../_data/useLive';
import { EvaluationProvider, useEvaluation } from '../_evaluation/evaluationContext';
import { isRescoring } from '../_evaluation/isRescoring';
import { ButtonLink } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { PickOrderAgreed } from '../_parts/PickOrderAgreed';
import { Refusal } from '../_parts/Refusal';
import { counted, seatKindWords } from '../_parts/textWords';
import { DevicesWay, Leave } from './ThisBrowser';
import styles from './start.module.css';

type SeatStartProps = { readonly seat: NonNullable<SessionView['seat']>; readonly demo: boolean };

/** For a device that holds a seat: where it sits, and the one thing to do now. */
export function SeatStart({ seat, demo }: SeatStartProps) {
  const trpc = useTRPC();
  const link = useLive(seat.evaluationId);
  const evaluation = useQuery(trpc.evaluation.get.queryOptions({ id: seat.evaluationId }));
  return (
    <>
      <PageHead
        title={evaluation.data?.name ?? 'Your seat'}
        facts={evaluation.data ? factsLine(evaluation.data) : ''}
      />
      <Page width="text">
        {demo ? (
          <p className="small">
            This is the demonstration: nothing here is real. <Link href="/demo">To its first page</Link>
          </p>
        ) : null}
        {evaluation.isPending ? <Loading what="your evaluation" /> : null}
        <Refusal error={evaluation.error} />
        {evaluation.data ? (
          <EvaluationProvider evaluation={evaluation.data} link={link} readAt={evaluation.dataUpdatedAt}>
            <SeatNow label={seat.label} />
            {evaluation.data.phase === 'preparing' ? <PickOrderAgreed /> : null}
          </EvaluationProvider>
        ) : null}
        <DevicesWay />
        <Leave seat={seat} />
      </Page>
    </>
  );
}

function factsLine({ litterName, puppies, ageDays }: EvaluationView): string {
  const present = puppies.filter((puppy) => !puppy.withdrawn).length;
  return `${litterName} · ${counted(present, 'puppy', 'puppies')} · ${counted(ageDays, 'day')} old`;
}

function SeatNow({ label }: { readonly label: string }) {
  const evaluation = useEvaluation();
  const own = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  const kind = own ? `, ${seatKindWords[own.kind]}` : '';
  return (
    <section className="stack upright gap-12">
      <h2>
        You sit here as {label}
        {kind}
      </h2>
      <p className={styles.say}>{nowWords(evaluation)}</p>
      <NowLink />
    </section>
  );
}

function nowWords(evaluation: EvaluationView): string {
  const { phase, seats, viewer } = evaluation;
  const own = seats.find((one) => one.id === viewer.seatId);
  const locked = own?.state === 'locked';
  if (own?.kind === 'none') return besideWords(evaluation);
  if (phase === 'preparing')
    return 'The owner is still setting this up. Keep this page: it goes on by itself when scoring opens.';
  if (phase === 'scoring')
    return locked
      ? 'Your card is locked. Nothing shows until the owner reveals.'
      : 'Scoring is open. Nobody sees your scores before the reveal, the owner included.';
  if (isRescoring(evaluation))
    return locked
      ? 'A second round is open and your card in it is locked. The first result stays on the board.'
      : 'A second round is open: a few questions are asked again, each seat for itself. The first result stays on the board.';
  if (phase === 'deciding') return 'The scores are revealed. Look at them on the board.';
  return 'The decisions are made and the record is sealed.';
}

/** For those who do not score. */
function besideWords({ phase, viewer, revealed }: EvaluationView): string {
  if (phase === 'preparing' && viewer.organises)
    return 'You prepare this evaluation. Opening it, the reveal and the decisions are the owner’s.';
  if (phase === 'preparing') return 'The owner is still setting this up. Keep this page: it goes on by itself.';
  if (!revealed)
    return viewer.reads
      ? 'Scoring is under way. You read the result once the owner reveals it.'
      : 'Scoring is under way.';
  return viewer.reads
    ? 'The scores are revealed. Look at them on the board.'
    : 'The scores are revealed, to those who scored or were asked to read them.';
}

/** Where there is something to do now; null while there is not. */
function nextPage(evaluation: EvaluationView): { readonly path: string; readonly words: string } | null {
  const { phase, viewer, seats, revealed } = evaluation;
  const scores = seats.some((one) => one.id === viewer.seatId && one.kind !== 'none');
  if (phase === 'preparing') return viewer.organises ? { path: '/setup', words: 'Go to the set-up' } : null;
  if (phase === 'scoring' || isRescoring(evaluation)) {
    if (scores) return { path: '/score', words: 'Go to scoring' };
    if (viewer.leads) return { path: '/score', words: 'Go to the table' };
  }
  return revealed && viewer.reads ? { path: '/board', words: 'Go to the board' } : null;
}

function NowLink() {
  const evaluation = useEvaluation();
  const go = nextPage(evaluation);
  if (!go) return null;
  return (
    <div className="wrap gap-12">
      <ButtonLink tone="main" href={`${go.path}?id=${evaluation.id}`}>
        {go.words}
      </ButtonLink>
    </div>
  );
}
