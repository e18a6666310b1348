'use client';

import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { Refusal } from '../_parts/Refusal';
import { BeforeStart } from './BeforeStart';
import { CardScreen } from './CardScreen';
import cardStyles from './CardScreen.module.css';
import { EntryList } from './EntryList';
import { LiveWords } from './LiveWords';
import { NoLink } from './NoLink';
import { ScoreScreen } from './ScoreScreen';
import { SecondRoundStart } from './SecondRoundStart';
import { useAwake } from './useAwake';
import { useOneTap } from './useOneTap';
import { useScoring, type Scoring } from './useScoring';
import { useShowing } from './useShowing';
import { WaitScreen } from './WaitScreen';
import { WorkOrderChoice } from './WorkOrderChoice';

type Props = Pick<Scoring, 'evaluation' | 'round' | 'seat' | 'link' | 'readAt'>;

/** A scoring seat's own screen, whatever the state of its card. */
export function SeatScreen(place: Props) {
  const scoring = useScoring(place);
  const shown = useShowing(scoring);
  const onCard = useSearchParams().get('show') === 'card';
  const [started, start] = useState(false);
  useAwake(scoring.open);
  useOneTap();
  const { evaluation, round } = scoring;
  if (!scoring.open) {
    return (
      <WaitScreen evaluation={evaluation} round={round}>
        <NoLink link={scoring.link} readAt={scoring.readAt} />
        {scoring.view.state.rows.some((row) => row.status !== 'applied') && (
          <section className={cardStyles.part} aria-label="Where your answers are">
            <EntryList scoring={scoring} />
          </section>
        )}
      </WaitScreen>
    );
  }
  if (!scoring.ready || !shown) {
    return (
      <Page width="text">
        {scoring.failure ? <Refusal error={scoring.failure} /> : <Loading what="your card" />}
      </Page>
    );
  }
  if (onCard) return <CardScreen scoring={scoring} shown={shown} onBack={() => window.history.back()} />;
  if (!started && scoring.answers.size === 0) {
    return (
      <main className={cardStyles.page}>
        <header className={cardStyles.head}>
          <h1>{evaluation.litterName}</h1>
          <p className="small">
            {evaluation.name} · you are {scoring.seat.label}
          </p>
        </header>
        {round.cells === null ? <BeforeStart evaluation={evaluation} /> : <SecondRoundStart scoring={scoring} />}
        <WorkOrderChoice round={round} />
        <p className={cardStyles.sticky}>
          <Button tone="main" onClick={() => start(true)}>
            {round.cells === null ? 'Start scoring' : 'Start the second round'}
          </Button>
        </p>
      </main>
    );
  }
  return (
    <>
      <ScoreScreen scoring={scoring} shown={shown} onCard={() => showCard(evaluation.id)} />
      <LiveWords scoring={scoring} shown={shown} />
    </>
  );
}

/** By the browser's own history, not the page router: that would ask the server, and there may be no link. */
function showCard(id: string): void {
  window.history.pushState(null, '', `/score?id=${id}&show=card`);
  window.scrollTo(0, 0);
}
