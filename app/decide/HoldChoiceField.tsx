'use client';

import { useId } from 'react';
import type { HoldChoice } from '#lib/contract/decisionView';
import { FieldText } from '../_parts/FieldText';
import styles from './decide.module.css';

const kinds = [
  { kind: 'cleared', words: 'Cleared: the hold falls' },
  { kind: 'again', words: 'Look again on a day: it holds until a later answer' },
  { kind: 'stays', words: 'Stays: it goes on holding' },
] as const;

type HoldChoiceFieldProps = { readonly choice: HoldChoice | null; readonly onChange: (choice: HoldChoice) => void };

/** What the owner makes of a veterinary answer; a day is asked for where it is to be looked at again. */
export function HoldChoiceField({ choice, onChange }: HoldChoiceFieldProps) {
  const name = useId();
  return (
    <>
      <fieldset>
        <legend className={styles.legend}>What you choose on it</legend>
        {kinds.map(({ kind, words }) => (
          <label key={kind} className={`ticked row gap-12 ${styles.line}`}>
            <input
              type="radio"
              name={name}
              checked={choice?.kind === kind}
              onChange={() => onChange(kind === 'again' ? { kind, on: '' } : { kind })}
            />
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
      {choice?.kind === 'again' ? (
        <FieldText
          label="Look again on"
          kind="date"
          value={choice.on}
          onChange={(on) => onChange({ kind: 'again', on })}
        />
      ) : null}
    </>
  );
}
