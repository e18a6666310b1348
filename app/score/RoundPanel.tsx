'use client';

import { useMutation } from '@tanstack/react-query';
import Link from 'next/link';
import { useState, type ReactNode } from 'react';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import styles from './score.module.css';
import { SeatStates } from './SeatStates';
import type { RoundView } from './useScoring';

type Props = { readonly round: RoundView };

/** The owner's control of the round: close, open again, reveal; each says what it does and is asked twice. */
export function RoundPanel({ round }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const close = useMutation(trpc.evaluation.closeRound.mutationOptions());
  const reopen = useMutation(trpc.evaluation.reopenRound.mutationOptions());
  const reveal = useMutation(trpc.evaluation.revealRound.mutationOptions());
  const { id } = evaluation;
  const own = evaluation.seats.find((seat) => seat.id === evaluation.viewer.seatId);
  const ownOpen = own !== undefined && own.kind !== 'none' && own.state !== 'locked';
  const first = ownOpen ? (
    <p role="note">Lock your own card first: nobody who can still score may choose the moment.</p>
  ) : null;
  return (
    <section className={`stack starts gap-12 ${styles.lock}`} aria-label="Round">
      <h2>Round</h2>
      <SeatStates round={round} />
      <p>
        <Link href={`/paper?id=${id}`}>Paper sheets</Link>, to print or to type in.
      </p>
      {round.state === 'open' && round.occasion === 'lesson' ? (
        <p>A lesson ends by itself: at the mentor’s lock both cards are shown. Nobody closes it.</p>
      ) : null}
      {round.state === 'open' && round.occasion !== 'lesson' ? (
        <>
          <p>
            The last lock closes the round by itself. Closing it before then ends scoring for everybody; open cards
            stand as they are and are marked not locked.
          </p>
          {first ?? (
            <Twice
              words="Close the round …"
              sure="Yes, close it"
              busy={close.isPending}
              press={() => close.mutate({ id })}
            />
          )}
        </>
      ) : null}
      {round.state === 'closed' ? (
        <>
          <p>
            Closed. Revealing shows everybody everything, for good. Opening it again, on the record, makes every lock
            void; everybody locks anew, but for you once you have typed a card from paper.
          </p>
          {first}
          <div className="wrap gap-8">
            {!first ? (
              <Twice
                words="Reveal …"
                sure="Yes, reveal for good"
                tone="main"
                busy={reveal.isPending}
                press={() => reveal.mutate({ id })}
              />
            ) : null}
            <Twice
              words="Open again …"
              sure="Yes, open it again"
              busy={reopen.isPending}
              press={() => reopen.mutate({ id })}
            />
          </div>
        </>
      ) : null}
      <Refusal error={close.error ?? reopen.error ?? reveal.error} />
    </section>
  );
}

type TwiceProps = {
  readonly words: string;
  readonly sure: string;
  readonly busy: boolean;
  readonly press: () => void;
  readonly tone?: 'plain' | 'main';
};

/** A press that is asked for a second time. */
function Twice({ words, sure, busy, press, tone = 'plain' }: TwiceProps): ReactNode {
  const [asked, ask] = useState(false);
  if (!asked) {
    return (
      <Button tone={tone} onClick={() => ask(true)}>
        {words}
      </Button>
    );
  }
  return (
    <span className="wrap gap-8">
      <Button tone="stop" busy={busy} onClick={press}>
        {sure}
      </Button>
      <Button onClick={() => ask(false)}>No</Button>
    </span>
  );
}
