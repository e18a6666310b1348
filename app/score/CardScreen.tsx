'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { cardsHash, keepPromise } from '../_data/keptPromises';
import { freshId } from '../_data/freshId';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Drawer } from '../_parts/Drawer';
import { Refusal } from '../_parts/Refusal';
import { counted } from '../_parts/textWords';
import { EntryList } from './EntryList';
import { RoundPanel } from './RoundPanel';
import { Standing } from './ScoreFoot';
import { SlotChoice } from './SlotChoice';
import styles from './score.module.css';
import { missingSteps, stepsOf, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly onBack: () => void };

/** Before the lock: what is open, puppy by puppy; one's own choices; then the lock. */
export function CardScreen({ scoring, shown, onBack }: Props) {
  const { evaluation } = scoring;
  const [entries, showEntries] = useState(false);
  return (
    <main className={`stack gap-28 ${styles.page} ${styles.card}`}>
      <header className="stack starts gap-4">
        <button type="button" className={`bare ${styles.back}`} onClick={onBack}>
          Back to scoring
        </button>
        <h1>Your card</h1>
        <p className="small">
          {scoring.seat.label} · {evaluation.litterName}, {evaluation.name}
        </p>
        <Standing scoring={scoring} onPress={() => showEntries(true)} />
      </header>
      <section className={`stack gap-12 ${styles.first}`} aria-label="What is open">
        <h2>What is open</h2>
        <OpenLines scoring={scoring} shown={shown} onBack={onBack} />
      </section>
      {evaluation.slots.length > 0 && scoring.round.cells === null ? (
        <section className="stack gap-12" aria-label="Your own choice">
          <h2>Your own choice</h2>
          <p>
            For each place in the pick order: which puppy would you take, and why? Nobody sees it before the reveal. You
            may leave a place open.
          </p>
          {evaluation.slots.map((slot, index) => (
            <SlotChoice key={slot.id} scoring={scoring} slot={slot} place={index + 1} />
          ))}
        </section>
      ) : null}
      <LockPanel scoring={scoring} />
      {evaluation.viewer.owner ? <RoundPanel round={scoring.round} /> : null}
      {entries ? (
        <Drawer title="Where your answers are" onClose={() => showEntries(false)}>
          <EntryList scoring={scoring} />
        </Drawer>
      ) : null}
    </main>
  );
}

function OpenLines({ scoring, shown, onBack }: Props) {
  const { round, answers } = scoring;
  const faces = round.showings.flatMap(({ id }) => faceOf(scoring, id) ?? []).filter(({ puppy }) => !puppy.withdrawn);
  return (
    <ul className="list topped lined">
      {faces.map(({ showing, puppy }) => {
        const steps = stepsOf(scoring, puppy);
        const open = missingSteps(steps, showing.id, answers);
        return (
          <li key={showing.id}>
            <button
              type="button"
              className={`whole-row ${styles.openLine}`}
              onClick={() => {
                shown.setPlace(showing.id, null);
                shown.go(showing.id);
                onBack();
              }}
            >
              <CollarChip collar={puppy.collar} words={false} size={22} />
              <span className="strong">{puppy.name}</span>
              <span className="small">
                {steps.length === 0
                  ? 'nothing asked of your seat'
                  : open.length === 0
                    ? 'everything answered'
                    : openWords(open.map(stepTitle))}
              </span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}

/** A few are named, many are counted. */
function openWords(titles: readonly string[]): string {
  const count = `${counted(titles.length, 'question')} open`;
  return titles.length > 3 ? count : `${count}: ${titles.join(', ')}`;
}

/** Locks the card, in two presses, and only when nothing is left on this device. */
function LockPanel({ scoring }: { readonly scoring: Scoring }) {
  const lock = useLock(scoring);
  const [asked, ask] = useState(false);
  const { waiting, doubted } = scoring;
  const refused = scoring.view.state.rows.filter((row) => row.status === 'refused').length;
  const open = openQuestions(scoring);
  return (
    <section className={`stack starts gap-12 ${styles.lock}`} aria-label="Lock your card">
      <h2>Lock</h2>
      <p>
        After the lock you cannot change a score or a choice. What arrives later is kept and marked late, and does not
        count. The others see that you have locked, never what you said.
      </p>
      {open > 0 ? <p>{counted(open, 'question')} open. You may lock all the same; open questions stay open.</p> : null}
      {refused > 0 ? (
        <p>
          {counted(refused, 'answer')} refused by the server and not counted. Press the line at the top to read why.
        </p>
      ) : null}
      {/* The first key stays where it is while an answer is on its way, the note below it: a press just after typing must not fall on nothing. */}
      {asked ? (
        <div className="wrap gap-8">
          <Button tone="stop" disabled={waiting + doubted > 0} busy={lock.isPending} onClick={() => lock.mutate()}>
            Yes, lock my card
          </Button>
          <Button onClick={() => ask(false)}>Not yet</Button>
        </div>
      ) : (
        <Button tone="main" onClick={() => ask(true)}>
          Lock …
        </Button>
      )}
      {waiting > 0 ? (
        <p role="note">
          <strong>Not yet: {counted(waiting, 'answer')} only on this device.</strong> The card can be locked when all is
          on the server; it is tried again by itself.
        </p>
      ) : null}
      {doubted > 0 ? (
        <p role="note">
          <strong>Not yet: the server was asked about {counted(doubted, 'answer')} that it had.</strong>
        </p>
      ) : null}
      <Refusal error={lock.error} />
    </section>
  );
}

function openQuestions(scoring: Scoring): number {
  const { round, answers } = scoring;
  return round.showings
    .flatMap(({ id }) => faceOf(scoring, id) ?? [])
    .filter(({ puppy }) => !puppy.withdrawn)
    .reduce((sum, { showing, puppy }) => sum + missingSteps(stepsOf(scoring, puppy), showing.id, answers).length, 0);
}

/**
 * Locks the card with a promise: the hash of what this very device shows, with a nonce made here and kept here, so that the
 * device can tell after the reveal whether its card is the one it locked. Refused when the server holds anything else; then
 * its answers are read again.
 */
function useLock({ evaluation, round, seat, answers }: Scoring) {
  const client = useTRPCClient();
  const trpc = useTRPC();
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async () => {
      const shown = [...answers].flatMap(([register, { body }]) =>
        body === null ? [] : [{ subject: register.slice(0, register.indexOf(' ')), body }],
      );
      const nonce = freshId();
      const commitment = cardsHash(nonce, { roundId: round.id, seatId: seat.id, answers: shown });
      // Before it is sent: an answer lost on the way must not lose the nonce. Where nothing can be kept, the lock goes on.
      await keepPromise({ roundId: round.id, seatId: seat.id }, { nonce, commitment }).catch(() => undefined);
      return client.card.lock.mutate({ id: evaluation.id, nonce, commitment });
    },
    onError: () => queries.invalidateQueries(trpc.card.mine.queryFilter({ id: evaluation.id })),
  });
}
