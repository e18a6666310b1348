'use client';

import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { FieldTick } from '../_parts/FieldTick';
import styles from './Photos.module.css';
import { SideBySide } from './SideBySide';

/** Any puppies of the litter side by side, in the order in which they were ticked. */
export function Compare({ evaluation }: { readonly evaluation: EvaluationView }) {
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const [chosen, choose] = useState<readonly string[]>(puppies.slice(0, 2).map((puppy) => puppy.id));
  return (
    <section className={styles.compare} aria-label="Side by side">
      <fieldset className={styles.listForm}>
        <legend className="small">Whose pictures</legend>
        {puppies.map(({ id, name }) => (
          <FieldTick key={id} label={name} ticked={chosen.includes(id)} onChange={(on) => choose(on ? [...chosen, id] : chosen.filter((one) => one !== id))} />
        ))}
      </fieldset>
      {chosen.length === 0 ? <p>Tick the puppies to look at.</p> : <SideBySide evaluation={evaluation} puppyIds={chosen} />}
    </section>
  );
}
