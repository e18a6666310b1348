'use client';

import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Criterion } from '#lib/sheet/criterion';
import { bandWords } from './bandWords';
import { CriterionDetail } from './CriterionDetail';
import styles from './CriterionRow.module.css';
import type { Faces } from './facesOf';
import { type CriterionResult, PuppyStrip } from './PuppyStrip';
import { spreadWords } from './spreadWords';

export type CriterionProps = {
  readonly criterion: Criterion;
  readonly result: CriterionResult;
  readonly evaluation: EvaluationView;
  readonly faces: Faces;
};

/** One criterion: how far apart the seats are, in words, beside their scores of the chosen puppy. Opens to all puppies. */
export function CriterionRow({ puppyId, ...props }: CriterionProps & { readonly puppyId: string }) {
  const [open, setOpen] = useState(false);
  const { criterion, result, evaluation, faces } = props;
  return (
    <div className={styles.row}>
      <div className={styles.words}>
        <button type="button" className={styles.name} aria-expanded={open} onClick={() => setOpen(!open)}>
          {criterion.name}
          <span className="aloud"> for all puppies</span>
        </button>
        <p className={`small figures ${styles.apart}`}>
          {spreadWords(result)}
          <span>
            agreement <b>{bandWords[result.band]}</b>
          </span>
        </p>
      </div>
      <PuppyStrip criterion={criterion} result={result} puppyId={puppyId} sheet={evaluation.sheet} faces={faces} />
      {open ? (
        <div className={styles.detail}>
          <CriterionDetail {...props} />
        </div>
      ) : null}
    </div>
  );
}
