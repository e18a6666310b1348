'use client';

import { useState } from 'react';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';

type Props = {
  readonly label: string;
  readonly value: number;
  readonly range: readonly [low: number, high: number];
  readonly onChange: (value: number) => void;
};

/** A number within a range; what is typed stays while it is none. */
export function FieldNumber({ label, value, range: [low, high], onChange }: Props) {
  const [typed, type] = useState(String(value));
  const read = Number(typed.replace(',', '.'));
  const sound = typed.trim() !== '' && Number.isFinite(read) && read >= low && read <= high;
  return (
    <Field label={label} fault={sound ? null : `Between ${low} and ${high}.`}>
      {(ids) => (
        <input
          {...ids}
          inputMode="decimal"
          value={typed}
          className={`key ${fieldStyles.control}`}
          onChange={(event) => {
            type(event.target.value);
            const next = Number(event.target.value.replace(',', '.'));
            if (event.target.value.trim() !== '' && Number.isFinite(next) && next >= low && next <= high)
              onChange(next);
          }}
        />
      )}
    </Field>
  );
}
