'use client';

import { useState } from 'react';
import type { LitterView } from '#lib/contract/litter';
import { Button } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { GrowthPicture } from './GrowthPicture';
import { GrowthTable } from './GrowthTable';
import styles from './Litter.module.css';
import { WeighForm } from './WeighForm';

type WeightPartProps = { readonly litter: LitterView; readonly today: string };

/** Weights over time: context for the day, never a part of a score. */
export function WeightPart({ litter, today }: WeightPartProps) {
  const [open, setOpen] = useState(false);
  if (litter.puppies.length === 0) return null;
  const weighed = litter.puppies.some((puppy) => puppy.weights.length > 0);
  return (
    <section className={styles.part}>
      <h2>Weights</h2>
      <p className="small">Context only: heavy is not better, and no score is worked out from a weight. Evaluators do not see them.</p>
      {weighed ? (
        <>
          <GrowthPicture litter={litter} />
          <details className={styles.more}>
            <summary>The same as a table</summary>
            <GrowthTable litter={litter} />
          </details>
        </>
      ) : (
        <EmptyState title="Nobody has been weighed yet">
          <p>Same scale, same hour, before a meal. From the second day on a line shows for each puppy.</p>
        </EmptyState>
      )}
      {open ? (
        <WeighForm litter={litter} today={today} onClose={() => setOpen(false)} />
      ) : (
        <div className={styles.actions}>
          <Button onClick={() => setOpen(true)}>Weigh the litter</Button>
        </div>
      )}
    </section>
  );
}
