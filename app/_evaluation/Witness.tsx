'use client';

import { useWitness } from '../_data/useWitness';
import { Button } from '../_parts/Button';
import { momentWords } from '../_parts/timeWords';
import { useEvaluation } from './evaluationContext';
import styles from './_evaluation.module.css';

/** On every page of an evaluation: silent while the server's record is the one this device saw before, else says so. */
export function Witness() {
  const evaluation = useEvaluation();
  const { broken, accept } = useWitness(evaluation);
  if (broken === null) return null;
  return (
    <section role="alert" aria-label="The record has changed" className={`stack gap-8 ${styles.broken}`}>
      <p>
        <strong>The record on the server is not the one this device saw on {momentWords(broken.at)}.</strong>
      </p>
      <p>
        Line {broken.seq} read <code>{broken.hash.slice(0, 12)}</code> then and does not now. That happens when a backup
        was put back, which the record says; it also happens when the past was rewritten. Compare with the other devices
        and ask whoever runs the server.
      </p>
      <div>
        <Button onClick={accept}>I know why: go on from here</Button>
      </div>
    </section>
  );
}
