'use client';

import { useSearchParams } from 'next/navigation';
import { useEffect, useState } from 'react';
import { isSamePlace, type Touch } from '#lib/evaluation/followTable';
import type { RowStatus } from '#lib/evaluation/outboxState';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { Refusal } from '../_parts/Refusal';
import { capital } from '../_parts/textWords';
import { BeforeStart } from './BeforeStart';
import { CardScreen } from './CardScreen';
import { EntryList } from './EntryList';
import { ScoreScreen } from './ScoreScreen';
import { SecondRoundStart } from './SecondRoundStart';
import { NoLink, WaitScreen } from './WaitScreen';
import { WorkOrderChoice } from './WorkOrderChoice';
import { isInPageOnly, standingLine } from './linkWords';
import cardStyles from './score.module.css';
import { type Scoring, useScoring } from './useScoring';
import { type Shown, useShowing } from './useShowing';

type Props = Pick<Scoring, 'round' | 'seat'>;

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
      <WaitScreen round={round}>
        <NoLink />
        {scoring.view.state.rows.some((row) => row.status !== 'applied') ? (
          <section className="stack gap-12" aria-label="Where your answers are">
            <EntryList scoring={scoring} />
          </section>
        ) : null}
      </WaitScreen>
    );
  }
  if (!scoring.ready || !shown) {
    return (
      <Page width="text">{scoring.failure ? <Refusal error={scoring.failure} /> : <Loading what="your card" />}</Page>
    );
  }
  if (onCard) return <CardScreen scoring={scoring} shown={shown} onBack={() => window.history.back()} />;
  if (!started && scoring.answers.size === 0) {
    return (
      <main className={`stack gap-28 ${cardStyles.page}`}>
        <header className="stack starts gap-4">
          <h1>{evaluation.litterName}</h1>
          <p className="small">
            {evaluation.name} · you are {scoring.seat.label}
          </p>
        </header>
        {round.cells === null ? <BeforeStart /> : <SecondRoundStart scoring={scoring} />}
        <WorkOrderChoice round={round} />
        <p className={`tall stack ${cardStyles.sticky}`}>
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

/** The one polite live region: the puppy shown, where the table is, and the link; never every tap. */
function LiveWords({ scoring, shown }: { readonly scoring: Scoring; readonly shown: Shown }) {
  const { table } = shown;
  const { link } = standingLine(scoring, 'phone');
  const { view } = scoring;
  const has = (status: RowStatus) => view.state.rows.some((row) => row.status === status);
  const words = [
    `Scoring ${shown.puppy.name}.`,
    table && table.showing.id !== shown.showing.id ? `The table is on ${table.puppy.name}.` : '',
    link === null ? '' : sentence(link),
    view.state.rows.some((row) => isInPageOnly(row, view.at))
      ? 'This browser cannot write to the device: keep the page open.'
      : '',
    has('refused') ? 'An answer was refused by the server.' : '',
    has('late') ? 'An answer came too late to count.' : '',
  ];
  return (
    <p className="aloud" role="status">
      {words.filter((word) => word !== '').join(' ')}
    </p>
  );
}

function sentence(link: string): string {
  return link.startsWith('no ') ? `There is ${link}.` : `${capital(link)}.`;
}

/** Holds the screen awake while somebody scores, and asks the browser not to clear the device's store. Both may be refused; "Before you start" says so. */
function useAwake(active: boolean): void {
  useEffect(() => {
    if (!active || !('wakeLock' in navigator)) return;
    let held: WakeLockSentinel | null = null;
    let over = false;
    const hold = async () => {
      if (document.visibilityState !== 'visible') return;
      try {
        held = await navigator.wakeLock.request('screen');
        if (over) await held.release();
      } catch {
        held = null;
      }
    };
    const again = () => void hold();
    again();
    void navigator.storage.persist().catch(() => false);
    document.addEventListener('visibilitychange', again);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }, [active]);
}

/** What a thumb that bounces must not press when it has slipped under it: a key that scores, a notice that would be put away unread. */
const steady = '[data-key], [data-steady]';

/**
 * While the page is open: the second half of a double tap presses nothing that has come under the thumb since the first, as
 * where a drawer has closed or a row has moved up. A key held down presses a button once.
 */
function useOneTap(): void {
  useEffect(() => {
    let last: (Touch & { readonly on: Element | null }) | null = null;
    const onClick = (event: MouseEvent) => {
      // By keyboard or another aid there is no thumb.
      if (event.detail === 0) return;
      const on = event.target instanceof Element ? (event.target.closest('button') ?? event.target) : null;
      const touch = { at: event.timeStamp, x: event.clientX, y: event.clientY, on };
      const slipped = on !== last?.on && isSamePlace(last, touch) && on?.matches(steady) === true;
      last = touch;
      if (!slipped) return;
      event.preventDefault();
      event.stopPropagation();
    };
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.repeat && event.key === 'Enter' && event.target instanceof HTMLButtonElement) event.preventDefault();
    };
    document.addEventListener('click', onClick, true);
    document.addEventListener('keydown', onKeyDown, true);
    return () => {
      document.removeEventListener('click', onClick, true);
      document.removeEventListener('keydown', onKeyDown, true);
    };
  }, []);
}
