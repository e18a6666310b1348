'use client';

import { useState } from 'react';
import { Field } from './Field';
import fieldStyles from './Field.module.css';
import { FieldTick } from './FieldTick';

type SecretFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly autoComplete: 'current-password' | 'new-password';
  readonly hint?: string;
  readonly fault?: string | null;
};

/** A passphrase: may be pasted, filled in by the browser, and shown while it is typed (WCAG 2.2, 3.3.8). */
export function SecretField({ label, value, onChange, autoComplete, hint, fault }: SecretFieldProps) {
  const [shown, setShown] = useState(false);
  return (
    <div>
      <Field label={label} hint={hint} fault={fault}>
        {(ids) => (
          <input
            {...ids}
            type={shown ? 'text' : 'password'}
            value={value}
            maxLength={200}
            autoComplete={autoComplete}
            autoCapitalize="none"
            spellCheck={false}
            className={`key ${fieldStyles.control}`}
            onChange={(event) => onChange(event.target.value)}
          />
        )}
      </Field>
      <FieldTick label="Show what I type" ticked={shown} onChange={setShown} />
    </div>
  );
}
