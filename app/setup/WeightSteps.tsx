'use client';

import { useId } from 'react';
import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { Button } from '../_parts/Button';
import { purposeWords } from '../_parts/purposeWords';
import styles from './Setup.module.css';
import type { PurposeDraft } from './setupDraft';
import { equalWeights, type Weights, weightsWords } from './weights';

type WeightStepsProps = { readonly purpose: PurposeDraft; readonly sheet: Sheet; readonly onChange: (weights: Weights) => void };

const steps = [
  { weight: 0, words: 'does not count' },
  { weight: 1, words: 'counts once' },
  { weight: 2, words: 'counts twice' },
  { weight: 3, words: 'counts three times' },
] as const;

/** How much each criterion counts for one purpose: folded away while all count alike. */
export function WeightSteps({ purpose: { key, weights }, sheet, onChange }: WeightStepsProps) {
  return (
    <details className={styles.weights}>
      <summary>
        <span>
          Weights<span className="aloud"> for {purposeWords[key]}</span>: {weightsWords(weights, sheet)}
        </span>
      </summary>
      <p className="small">0 does not count, 1 counts once, 2 twice, 3 three times.</p>
      <Button onClick={() => onChange(equalWeights(sheet))}>Let all count alike</Button>
      {sheet.criteria.map((criterion) => (
        <WeightRow
          key={criterion.key}
          criterion={criterion}
          weight={weights[criterion.key] ?? 1}
          onChange={(weight) => onChange({ ...weights, [criterion.key]: weight })}
        />
      ))}
    </details>
  );
}

type WeightRowProps = { readonly criterion: Criterion; readonly weight: number; readonly onChange: (weight: number) => void };

function WeightRow({ criterion, weight, onChange }: WeightRowProps) {
  const name = useId();
  const onStep = steps.some((step) => step.weight === weight);
  return (
    <fieldset className={styles.weightRow}>
      <legend>
        {criterion.name}
        {onStep ? '' : ` (now ${weight})`}
      </legend>
      {steps.map((step) => (
        <label key={step.weight} className={styles.step}>
          <input type="radio" name={name} checked={step.weight === weight} onChange={() => onChange(step.weight)} />
          <span aria-hidden="true">{step.weight}</span>
          <span className="aloud">{step.words}</span>
        </label>
      ))}
    </fieldset>
  );
}
