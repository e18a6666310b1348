'use client';

import { Field } from './Field';
import styles from './Field.module.css';

type FieldTextProps = {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string | undefined;
  readonly fault?: string | null | undefined;
  readonly maxLength?: number;
  readonly kind?: 'text' | 'date' | 'url' | 'tel' | 'number' | 'digits' | 'lines';
  readonly disabled?: boolean;
};

/** One labelled field of typing; `lines` makes it several lines high. */
export function FieldText({
  label,
  value,
  onChange,
  hint,
  fault,
  maxLength,
  kind = 'text',
  disabled = false,
}: FieldTextProps) {
  return (
    <Field label={label} hint={hint} fault={fault}>
      {(ids) => {
        const shared = {
          ...ids,
          value,
          disabled,
          className: `key ${styles.control}`,
          ...(maxLength === undefined ? {} : { maxLength }),
        };
        if (kind === 'lines') return <textarea {...shared} onChange={(event) => onChange(event.target.value)} />;
        return (
          <input
            {...shared}
            type={kind === 'digits' || kind === 'number' ? 'text' : kind}
            inputMode={kind === 'digits' || kind === 'number' ? 'numeric' : undefined}
            autoComplete="off"
            onChange={(event) => onChange(event.target.value)}
          />
        );
      }}
    </Field>
  );
}
