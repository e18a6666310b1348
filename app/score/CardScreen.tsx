'use client';

import { useState } from 'react';
import { counted } from '../_parts/counted';
import { CollarChip } from '../_parts/CollarChip';
import { Drawer } from '../_parts/Drawer';
import styles from './CardScreen.module.css';
import { EntryList } from './EntryList';
import { LockPanel } from './LockPanel';
import { RoundPanel } from './RoundPanel';
import { Standing } from './ScoreFoot';
import { SlotChoice } from './SlotChoice';
import { missingSteps, stepTitle } from './steps';
import { stepsOf } from './stepsOf';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly onBack: () => void };

/** Before the lock: what is open, puppy by puppy; one's own choices; then the lock. */
export function CardScreen({ scoring, shown, onBack }: Props) {
  const { evaluation } = scoring;
  const [entries, showEntries] = useState(false);
  return (
    <main className={`${styles.page} ${styles.card}`}>
      <header className={styles.head}>
        <button type="button" className={styles.back} onClick={onBack}>
          Back to scoring
        </button>
        <h1>Your card</h1>
        <p className="small">
          {scoring.seat.label} · {evaluation.litterName}, {evaluation.name}
        </p>
        <Standing scoring={scoring} onPress={() => showEntries(true)} />
      </header>
      <section className={`${styles.part} ${styles.first}`} aria-label="What is open">
        <h2>What is open</h2>
        <OpenLines scoring={scoring} shown={shown} onBack={onBack} />
      </section>
      {evaluation.slots.length > 0 && scoring.round.cells === null && (
        <section className={styles.part} aria-label="Your own choice">
          <h2>Your own choice</h2>
          <p>For each place in the pick order: which puppy would you take, and why? Nobody sees it before the reveal. You may leave a place open.</p>
          {evaluation.slots.map((slot, index) => (
            <SlotChoice key={slot.id} scoring={scoring} slot={slot} place={index + 1} />
          ))}
        </section>
      )}
      <LockPanel scoring={scoring} />
      {evaluation.viewer.owner && <RoundPanel evaluation={evaluation} round={scoring.round} />}
      {entries && (
        <Drawer title="Where your answers are" onClose={() => showEntries(false)}>
          <EntryList scoring={scoring} />
        </Drawer>
      )}
    </main>
  );
}

function OpenLines({ scoring, shown, onBack }: Props) {
  const { round, answers } = scoring;
  const faces = round.showings.flatMap(({ id }) => faceOf(scoring, id) ?? []).filter(({ puppy }) => !puppy.withdrawn);
  return (
    <ul className={styles.lines}>
      {faces.map(({ showing, puppy }) => {
        const steps = stepsOf(scoring, puppy);
        const open = missingSteps(steps, showing.id, answers);
        return (
          <li key={showing.id}>
            <button
              type="button"
              onClick={() => {
                shown.setPlace(showing.id, null);
                shown.go(showing.id);
                onBack();
              }}
            >
              <CollarChip collar={puppy.collar} words={false} size={22} />
              <span className={styles.name}>{puppy.name}</span>
              <span className={styles.open}>{steps.length === 0 ? 'nothing asked of your seat' : open.length === 0 ? 'everything answered' : openWords(open.map(stepTitle))}</span>
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
