'use client';

import { Field } from './Field';
import styles from './Field.module.css';

type Option<Key extends string> = { readonly key: Key; readonly words: string };

type FieldChoiceProps<Key extends string> = {
  readonly label: string;
  readonly value: Key;
  readonly options: readonly Option<Key>[];
  readonly onChange: (value: Key) => void;
  readonly hint?: string | undefined;
  readonly fault?: string | null | undefined;
  readonly disabled?: boolean;
};

/** One of a few, as a native list: the control every telephone and screen reader knows. */
export function FieldChoice<Key extends string>({
  label,
  value,
  options,
  onChange,
  hint,
  fault,
  disabled = false,
}: FieldChoiceProps<Key>) {
  return (
    <Field label={label} hint={hint} fault={fault}>
      {(ids) => (
        <select
          {...ids}
          value={value}
          disabled={disabled}
          className={`key ${styles.control}`}
          onChange={(event) => {
            const chosen = options.find((option) => option.key === event.target.value);
            if (chosen) onChange(chosen.key);
          }}
        >
          {options.map(({ key, words }) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
