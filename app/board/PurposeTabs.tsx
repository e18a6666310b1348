'use client';

import type { KeyboardEvent } from 'react';
import type { PurposeKey } from '#lib/contract/setup';
import { purposeWords } from '../_parts/purposeWords';
import { capital } from './capital';
import styles from './PurposeTabs.module.css';

type PurposeTabsProps = {
  readonly keys: readonly PurposeKey[];
  readonly chosen: PurposeKey;
  readonly onChoose: (key: PurposeKey) => void;
};

const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowLeft: -1 };

/** Purposes side by side: three ends, not a ladder. Arrow keys walk through them. */
export function PurposeTabs({ keys, chosen, onChoose }: PurposeTabsProps) {
  const walk = (event: KeyboardEvent) => {
    const step = steps[event.key];
    const next = step === undefined ? undefined : keys[(keys.indexOf(chosen) + step + keys.length) % keys.length];
    if (next === undefined) return;
    event.preventDefault();
    onChoose(next);
    document.getElementById(`tab-${next}`)?.focus();
  };
  return (
    <div>
      <div role="tablist" aria-label="Purposes" className={styles.tabs} onKeyDown={walk}>
        {keys.map((key) => (
          <button
            key={key}
            type="button"
            role="tab"
            id={`tab-${key}`}
            aria-selected={key === chosen}
            aria-controls={key === chosen ? `purpose-${key}` : undefined}
            tabIndex={key === chosen ? 0 : -1}
            className={styles.tab}
            onClick={() => onChoose(key)}
          >
            {capital(purposeWords[key])}
          </button>
        ))}
      </div>
      <p className={`small ${styles.note}`}>Different ends, not a ladder: each weighs the same scores for another life.</p>
    </div>
  );
}
