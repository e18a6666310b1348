'use client';

import { useState } from 'react';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { Refusal } from '../_parts/Refusal';
import styles from './CardScreen.module.css';
import { missingSteps } from './steps';
import { stepsOf } from './stepsOf';
import { useLock } from './useLock';
import type { Scoring } from './useScoring';
import { faceOf } from './useShowing';

/** Locks the card, in two presses, and only when nothing is left on this device. */
export function LockPanel({ scoring }: { readonly scoring: Scoring }) {
  const lock = useLock(scoring);
  const [asked, ask] = useState(false);
  const { waiting, doubted } = scoring;
  const refused = scoring.view.state.rows.filter((row) => row.status === 'refused').length;
  const open = openQuestions(scoring);
  return (
    <section className={styles.lock} aria-label="Lock your card">
      <h2>Lock</h2>
      <p>
        After the lock you cannot change a score or a choice. What arrives later is kept and marked late, and does not count. The others see that you have locked, never what you said.
      </p>
      {open > 0 && <p>{counted(open, 'question')} open. You may lock all the same; open questions stay open.</p>}
      {refused > 0 && <p>{counted(refused, 'answer')} refused by the server and not counted. Press the line at the top to read why.</p>}
      {/* The first key stays where it is while an answer is on its way, the note below it: a press just after typing must not fall on nothing. */}
      {asked ? (
        <div className={styles.buttons}>
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
      {waiting > 0 && (
        <p role="note">
          <strong>Not yet: {counted(waiting, 'answer')} only on this device.</strong> The card can be locked when all is on the server; it is tried again by itself.
        </p>
      )}
      {doubted > 0 && (
        <p role="note">
          <strong>Not yet: the server was asked about {counted(doubted, 'answer')} that it had.</strong>
        </p>
      )}
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
