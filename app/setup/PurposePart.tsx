'use client';

import type { PurposeKey } from '#lib/contract/setup';
import type { Sheet } from '#lib/sheet/sheet';
import { CautionNote } from '../_parts/CautionNote';
import { FieldTick } from '../_parts/FieldTick';
import { purposeWords } from '../_parts/purposeWords';
import { Part } from './Part';
import { purposeKeys } from './purposeKeys';
import styles from './Setup.module.css';
import type { SetupDraft } from './setupDraft';
import type { Change } from './useSetupDraft';
import { WeightSteps } from './WeightSteps';
import { equalWeights } from './weights';

type PurposePartProps = { readonly draft: SetupDraft; readonly sheet: Sheet; readonly fault: string | null; readonly change: Change };

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
    <Part title="Purposes" note="What puppies are looked at for. Three different ends, none above another; each weighs the same scores in its own way. Seats see the weights at the reveal.">
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
            {purpose ? <WeightSteps purpose={purpose} sheet={sheet} onChange={(weights) => weigh(key, weights)} /> : null}
          </div>
        );
      })}
      {fault ? (
        <p role="alert" className={styles.fault}>
          {fault}
        </p>
      ) : null}
      <CautionNote caution="worth" />
    </Part>
  );
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
