'use client';

import Link from 'next/link';
import { useSyncExternalStore } from 'react';
import { setUpSteps, visitorQuestion } from '#lib/sheet/cautions';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { RoomCautions } from '../_parts/CautionNote';
import { mealWords } from '../_parts/timeWords';
import { useShellStanding } from '../offline/useShell';
import styles from './score.module.css';

/** What everybody should have read before the first puppy: quiet, hands, how to set up, how to reach the table. */
export function BeforeStart() {
  const evaluation = useEvaluation();
  const { tableNote, callLink, callNumber, round, plan } = evaluation;
  return (
    <section className={`stack gap-18 ${styles.start}`} aria-label="Before you start">
      <h2>Before you start</h2>
      <div>
        <h3>A quiet table</h3>
        <p>
          {tableNote === ''
            ? 'Nobody says anything about quality while a puppy is up, and nobody shows a screen. Microphones off, faces too.'
            : tableNote}
        </p>
        <p>
          Score what stands in front of you today. If you cannot tell, say so: that is an answer. Nobody sees what you
          score before the reveal, the owner included.
        </p>
      </div>
      {plan.hoursSinceMeal !== null ? (
        <div>
          <h3>Before they came</h3>
          <p>
            Last fed {mealWords(plan.hoursSinceMeal)} before. If a puppy looks too full, too sleepy or too hungry to
            show itself, say so under “Manner and day”.
          </p>
        </div>
      ) : null}
      {callLink !== '' || callNumber !== '' ? (
        <div>
          <h3>Dial in</h3>
          {callLink !== '' ? (
            <p>
              <a href={callLink} rel="noreferrer noopener" target="_blank">
                Open the call
              </a>
            </p>
          ) : null}
          {callNumber !== '' ? <p>{callNumber}</p> : null}
        </div>
      ) : null}
      {round?.medium !== 'photographs' ? (
        <div>
          <h3>Set up, then let go</h3>
          <ol className={`stack gap-6 ${styles.steps}`}>
            {setUpSteps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </div>
      ) : null}
      {evaluation.phase === 'preparing' ? (
        <p>
          <Link href={`/practice?id=${evaluation.id}`}>Practise on two drawn puppies</Link>: a minute, nothing counts,
          and you see how the others read the same words.
        </p>
      ) : null}
      {round?.state === 'open' ? (
        <p>
          Rather with a pencil? <Link href={`/paper?id=${evaluation.id}`}>Print your own sheets</Link>, and type them in
          there afterwards.
        </p>
      ) : null}
      {round?.medium !== 'photographs' ? (
        <div role="note" className="warned stack gap-12 roomy">
          <p className="strong">{visitorQuestion}</p>
          <RoomCautions />
        </div>
      ) : null}
      <BrowserLacks />
    </section>
  );
}

function BrowserLacks() {
  const lacks = useBrowserLacks();
  if (lacks.length === 0) return null;
  return (
    <div role="note" className={styles.lacks}>
      <h3>What this browser holds back here</h3>
      <ul className="stack points gap-4">
        {lacks.map((lack) => (
          <li key={lack}>{lack}</li>
        ))}
      </ul>
    </div>
  );
}

const sleep =
  'The screen may go to sleep while you score: at a plain http address the browser lets no page hold it awake.';
const reload = 'Keep this page open while there is no link: here it cannot be loaded anew without one.';

/** What this browser withholds at this address, in words. */
function useBrowserLacks(): readonly string[] {
  const shell = useShellStanding();
  const awake = useSyncExternalStore(
    () => () => undefined,
    () => 'wakeLock' in navigator,
    () => true,
  );
  return [...(awake ? [] : [sleep]), ...(shell === 'none' ? [reload] : [])];
}
