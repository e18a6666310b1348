'use client';

import { useId } from 'react';
import type { PurposeKey } from '#lib/contract/setup';
import type { Criterion } from '#lib/sheet/criterion';
import { structureAlone } from '#lib/sheet/cautions';
import type { Sheet } from '#lib/sheet/sheet';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { Disclosure } from '../_parts/Disclosure';
import { FieldTick } from '../_parts/FieldTick';
import { capital, purposeWords } from '../_parts/textWords';
import { Part } from './Part';
import { type PurposeDraft, purposeKeys, type SetupDraft } from './setupDraft';
import styles from './setup.module.css';
import type { Change } from './useSetupDraft';
import { equalWeights, type Weights, weightsWords } from './weights';

type PurposePartProps = {
  readonly draft: SetupDraft;
  readonly sheet: Sheet;
  readonly fault: string | null;
  readonly change: Change;
};

/** Three ends, each with weights of its own; the seats do not see the weights before the reveal. */
export function PurposePart({ draft, sheet, fault, change }: PurposePartProps) {
  const toggle = (key: PurposeKey, chosen: boolean) => {
    const others = draft.purposes.filter((purpose) => purpose.key !== key);
    const kept = chosen ? [...others, { key, weights: equalWeights(sheet) }] : others;
    change({ purposes: purposeKeys.flatMap((one) => kept.find((purpose) => purpose.key === one) ?? []) });
  };
  const weigh = (key: PurposeKey, weights: Record<string, number>) =>
    change({ purposes: draft.purposes.map((purpose) => (purpose.key === key ? { key, weights } : purpose)) });
  return (
    <Part
      title="Purposes"
      note="What puppies are looked at for. Three different ends, none above another; each weighs the same scores in its own way. Seats see the weights at the reveal."
    >
      {purposeKeys.map((key) => {
        const purpose = draft.purposes.find((one) => one.key === key);
        const used = draft.slots.some((slot) => slot.purpose === key);
        return (
          <div key={key} className={styles.purpose}>
            <FieldTick
              label={capital(purposeWords[key])}
              {...(used ? { hint: 'A place in the pick order uses it.' } : {})}
              ticked={purpose !== undefined}
              disabled={used && purpose !== undefined}
              onChange={(chosen) => toggle(key, chosen)}
            />
            {purpose ? (
              <WeightSteps purpose={purpose} sheet={sheet} onChange={(weights) => weigh(key, weights)} />
            ) : null}
          </div>
        );
      })}
      {fault ? (
        <p role="alert" className="fault">
          {fault}
        </p>
      ) : null}
      <p className="small">{structureAlone}</p>
      <CautionNote caution="worth" />
    </Part>
  );
}

type WeightStepsProps = {
  readonly purpose: PurposeDraft;
  readonly sheet: Sheet;
  readonly onChange: (weights: Weights) => void;
};

const steps = [
  { weight: 0, words: 'does not count' },
  { weight: 1, words: 'counts once' },
  { weight: 2, words: 'counts twice' },
  { weight: 3, words: 'counts three times' },
] as const;

/** How much each criterion counts for one purpose: folded away while all count alike. */
function WeightSteps({ purpose: { key, weights }, sheet, onChange }: WeightStepsProps) {
  return (
    <Disclosure
      bare
      className={styles.weights}
      words={
        <span>
          Weights<span className="aloud"> for {purposeWords[key]}</span>: {weightsWords(weights, sheet)}
        </span>
      }
    >
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
    </Disclosure>
  );
}

type WeightRowProps = {
  readonly criterion: Criterion;
  readonly weight: number;
  readonly onChange: (weight: number) => void;
};

function WeightRow({ criterion, weight, onChange }: WeightRowProps) {
  const name = useId();
  const onStep = steps.some((step) => step.weight === weight);
  return (
    <fieldset className={`wrap centred ${styles.weightRow}`}>
      <legend>
        {criterion.name}
        {onStep ? '' : ` (now ${weight})`}
      </legend>
      {steps.map((step) => (
        <label key={step.weight} className={`key centred ${styles.step}`}>
          <input
            type="radio"
            className="over"
            name={name}
            checked={step.weight === weight}
            onChange={() => onChange(step.weight)}
          />
          <span aria-hidden="true">{step.weight}</span>
          <span className="aloud">{step.words}</span>
        </label>
      ))}
    </fieldset>
  );
}
